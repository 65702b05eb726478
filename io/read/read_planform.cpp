#include "io/read/read_tables.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <functional>

#include "io/toml/accepted.hpp"
#include "io/toml/read_text.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

// Geometry knows no files: its errors get the place of the key they come from.
template <class Built>
std::optional<Built> placed(TableReader& table, std::string_view key,
                            const std::function<Built()>& build) {
    try {
        return build();
    } catch (const InputError& error) {
        for (const Problem& problem : error.problems()) {
            table.problem(key, problem.message);
        }
    }
    return std::nullopt;
}

bool any_nan(std::initializer_list<double> values) {
    return std::ranges::any_of(values, [](double v) { return std::isnan(v); });
}

std::optional<Planform> read_parametric(TableReader& table) {
    PlanformShape shape;
    shape.running_length = table.number("running_length_mm");
    shape.waist_width = table.number("waist_width_mm");
    shape.nose_width = table.number("nose_width_mm");
    shape.tail_width = table.number("tail_width_mm");
    shape.waist_x = table.number_or_default("waist_x_mm");
    shape.nose_length = table.number("nose_length_mm");
    shape.tail_length = table.number("tail_length_mm");
    shape.nose_fullness = table.number_or_default("nose_fullness");
    shape.tail_fullness = table.number_or_default("tail_fullness");
    if (any_nan({shape.running_length, shape.waist_width, shape.nose_width, shape.tail_width,
                 shape.waist_x, shape.nose_length, shape.tail_length, shape.nose_fullness,
                 shape.tail_fullness})) {
        return std::nullopt;
    }
    if (std::abs(shape.waist_x) >= shape.running_length / 2) {
        const std::string half = number_text(from_si("x_mm", shape.running_length / 2));
        table.wrong("waist_x_mm",
                    "a station between the contact stations, -" + half + " to " + half + " (mm)");
        return std::nullopt;
    }
    return placed<Planform>(table, "running_length_mm", [&] { return parametric_planform(shape); });
}

std::optional<Planform> read_rectangle(TableReader& table) {
    const auto size = table.pair("rectangle_mm");
    const auto running = table.number_if("running_length_mm");
    if (!size || (running && std::isnan(*running))) {
        return std::nullopt;
    }
    auto planform = placed<Planform>(table, "rectangle_mm",
                                     [&] { return rectangle_planform(size->x(), size->y()); });
    if (planform && running) {
        planform->running_length = *running;
    }
    return planform;
}

std::optional<Planform> read_polygon(TableReader& table) {
    const auto corners = table.points("polygon_mm");
    const double running = table.number("running_length_mm");
    const bool broken =
        std::ranges::any_of(corners, [](const auto& corner) { return !corner.allFinite(); });
    if (broken || std::isnan(running) || corners.empty()) {
        return std::nullopt;
    }
    if (corners.size() < 3 || corners.size() > 1000) {
        table.wrong("polygon_mm", "3 to 1000 corners");
        return std::nullopt;
    }
    return placed<Planform>(table, "polygon_mm",
                            [&] { return polygon_planform(corners, running); });
}

// A spline that leaves what the points show is taken, but hardly meant.
void warn_of_strayings(TableReader& table, const Planform& planform) {
    const std::vector<Straying> found = strayings(planform);
    if (found.empty()) {
        return;
    }
    const Straying& worst =
        *std::ranges::max_element(found, [](auto& a, auto& b) { return a.excess < b.excess; });
    const auto in_unit = [](std::string_view key, double value, double digits) {
        return number_text(std::round(from_si(key, value) * digits) / digits);
    };
    const std::string more = found.size() == 1
                                 ? ""
                                 : ", and at " + std::to_string(found.size() - 1) +
                                       (found.size() == 2 ? " more place" : " more places");
    table.warn("outline_csv", "between two points at x = " + in_unit("x_mm", worst.x, 1) +
                                  " mm the outline turns by " +
                                  in_unit("angle_deg", worst.turn, 1) +
                                  " degrees and leaves "
                                  "the straight line between them by " +
                                  in_unit("x_mm", worst.distance, 10) + " mm" + more +
                                  "; more points there, or a corner, would make the shape certain");
}

// The points of a whole outline. Nothing after a problem.
std::optional<DrawnOutline> whole_outline(TableReader& table, const DrawnOutline& listed,
                                          bool half) {
    if (!half && is_one_sided(listed)) {
        table.problem("outline_csv",
                      "all points lie on one side of the centre line y = 0; accepted: a whole "
                      "outline, or half of one together with half = true");
        return std::nullopt;
    }
    std::optional<DrawnOutline> whole = listed;
    if (half) {
        whole = placed<DrawnOutline>(table, "half", [&] { return with_mirror_image(listed); });
    }
    return whole;
}

std::optional<Planform> read_drawn(TableReader& table, const std::string& folder,
                                   OutlineSource& source) {
    const std::string name = table.text("outline_csv");
    const double running = table.number("running_length_mm");
    const bool half = table.flag_or("half", false);
    const auto tolerance = table.number_if("outline_tolerance_mm");
    if (name.empty()) {
        return std::nullopt;
    }
    const std::string path = (std::filesystem::path(folder) / name).string();
    Reading& reading = table.reading();
    try {
        source.text = read_text(path, table.place("outline_csv"));
    } catch (const InputError& error) { // one of the problems of the board file
        table.problem("outline_csv", error.problems().front().message);
        return std::nullopt;
    }
    const auto file = read_outline(source.text, path, reading.problems, half);
    if (!file || std::isnan(running) || (tolerance && std::isnan(*tolerance))) {
        return std::nullopt;
    }
    const auto whole = whole_outline(table, file->outline, half);
    if (!whole) {
        return std::nullopt;
    }
    auto drawn = placed<DrawnPlanform>(table, "outline_csv", [&] {
        return drawn_planform(*whole, running, tolerance.value_or(file->rounding));
    });
    if (!drawn) {
        return std::nullopt;
    }
    warn_of_strayings(table, drawn->planform);
    source.fit = drawn->fit;
    return std::move(drawn->planform);
}

std::optional<Planform> read_form(TableReader& table, const std::string& folder,
                                  OutlineSource& source) {
    if (table.has("outline_csv")) {
        return read_drawn(table, folder, source);
    }
    if (table.has("rectangle_mm")) {
        return read_rectangle(table);
    }
    return table.has("polygon_mm") ? read_polygon(table) : read_parametric(table);
}

// Only one way to give the outline is accepted.
void refuse_others(TableReader& table) {
    std::string given;
    for (const std::string_view form : {"outline_csv", "rectangle_mm", "polygon_mm"}) {
        if (!given.empty()) {
            table.refuse(form, "not accepted beside " + given);
        } else if (table.has(form)) {
            given = form;
        }
    }
    if (given != "outline_csv") {
        constexpr const char* drawn_only = "accepted only beside outline_csv";
        table.refuse("outline_tolerance_mm", drawn_only);
        if (table.flag_or("half", false)) {
            table.problem("half", drawn_only);
        }
    }
    if (given.empty()) {
        return;
    }
    for (const std::string_view key :
         {"waist_width_mm", "nose_width_mm", "tail_width_mm", "waist_x_mm", "nose_length_mm",
          "tail_length_mm", "nose_fullness", "tail_fullness"}) {
        table.refuse(key, "not accepted beside " + given);
    }
}

} // namespace

std::optional<Planform> read_planform(TableReader table, const std::string& folder,
                                      OutlineSource& source) {
    auto planform = read_form(table, folder, source);
    refuse_others(table);
    if (planform) {
        planform->edge_contact = {table.range_if("contact_left_mm"),
                                  table.range_if("contact_right_mm")};
    }
    table.know({"outline_csv", "half", "outline_tolerance_mm", "rectangle_mm", "polygon_mm",
                "contact_left_mm", "contact_right_mm"});
    table.finish();
    return planform;
}

} // namespace vrid

#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/report/findings.hpp"
#include "io/report/variant_change.hpp"
#include "io/write/drawing.hpp"
#include "io/write/edge_document.hpp"
#include "io/write/number.hpp"
#include "io/write/result_document.hpp"

namespace vrid {

/// What stations.csv holds; a missing cell is nan.
struct StationTable {
    std::vector<std::string> columns;
    std::vector<std::vector<double>> values; ///< by column
    [[nodiscard]] const std::vector<double>* column(const std::string& name) const;
};

struct ReportNumber {
    std::string name;
    BenchQuantity quantity;
    std::optional<LimitVerdict> limit;
    std::optional<double> percent; ///< against the baseline
    bool moved = false;            ///< beyond both bars
    bool drift = false;
    bool resolved = true; ///< else its bar is shown as "not resolved"
    bool on_edge = false; ///< one of very many: in the tables only if limited or moved
    [[nodiscard]] bool is_shown() const { return !on_edge || limit || moved; }
};

/// One way of standing on the edge: what edge.json and edge.csv hold of it.
struct EdgeState : FoundCondition {
    std::string snow{};  ///< "5 N/mm3"
    std::string stand{}; ///< "left edge, share of the front foot 1"
    std::vector<double> x{}, y{}, force_line{}, angle_line{}; ///< along the edge: mm, mm, N/mm, deg
};

/// One line of a chart.
struct Curve {
    std::string name;
    std::vector<double> x, y;
};

/// Out of the press: what result.json holds of `release`, `cold` and the mould.
struct CooledDrawing {
    std::vector<Curve> profile; ///< mould, released, cold: heights [mm] by station [mm]
    struct Across {
        double x = 0;              ///< [mm]
        std::vector<Curve> curves; ///< rise [mm] by y [mm]
    };
    std::vector<Across> across;
    std::vector<LayerShare> by_layer; ///< of `release`, upwards
    [[nodiscard]] bool any() const { return !profile.empty(); }
};

/// A row of the overview.
struct ReportRow {
    std::string board, variant, error; ///< error: why there is nothing else
    std::vector<ReportNumber> numbers;
    std::optional<Drawing> drawing;
    StationTable stations;
    StationTable sections; ///< every 2 mm; empty in results of earlier versions
    std::vector<std::pair<std::string, std::string>> facts; ///< program, mesh, seconds ...
    std::vector<EdgeState> edge;
    CooledDrawing cooled{};
    std::vector<VariantChange> variant_changes{}; ///< of a variant
    std::vector<std::string> unjudged{};          ///< limits on numbers that are not here
    StationTable
        lines{}; ///< tip to tip, every 10 mm or closer; empty in results of earlier versions
};

struct Report {
    std::string title;
    std::string program;
    std::vector<ReportRow> rows; ///< variants follow their board as drawn
    bool has_baseline = false;
    Findings findings{};  ///< alone or beside one row
    std::string hash{};   ///< of that row's board; empty: none
    std::string notice{}; ///< what a reader must know first; empty: nothing
};

/// A number's bar for a page, "&plusmn;&#8239;0.4" or "not resolved"; empty without one.
std::string bar_markup(const ReportNumber& number, const RoundedNumber& rounded);

/// One HTML page that needs nothing else: pictures, tables, a script for the overlay.
std::string report_html(const Report& report);

// Its parts, for the page and for tests. `id` is unique on the page.
std::string planform_picture(const Drawing& drawing, const std::string& id);
/// What a reader must see first: failed, outside limits, drifted, warned; or that there is nothing.
std::string needs_a_look(const Report& report);
/// How the bench cases of the page are held and loaded, a drawing each; empty without a case.
std::string cases_table(const Report& report);
/// Empty for a name that is no bench case.
std::string case_picture(const std::string& name, const std::string& id);
/// What each variant changes against its board as drawn; empty without variants.
std::string variants_table(const Report& report);
/// Layers with plies, weights, angles and resin; empty without.
std::string layup_table(const Drawing& drawing);
std::string section_picture(const DrawnSection& section, double widest,
                            const std::vector<std::string>& layers, const std::string& id);
/// Colour of each layer by name, 1..: the same in all pictures of a board.
std::vector<std::string> layer_names(const Drawing& drawing);
std::string layer_class(const std::vector<std::string>& layers, const std::string& name);
/// The edge on snow: force and local angle along the edge, and the map; empty without conditions.
std::string edge_pictures(const ReportRow& row, const std::string& id);
/// The map alone, of conditions of one stand.
std::string edge_map_picture(const std::vector<const EdgeState*>& states, const std::string& id);
/// All numbers of all conditions.
std::string edge_table(const std::vector<EdgeState>& edge);
std::string curve_pictures(const ReportRow& row, const std::string& id);
/// The board out of the press: long profile, curves across, what each layer does; empty without.
std::string cooled_section(const ReportRow& row, const std::string& id);
/// The board bent far: forces and twist stiffness over travel; empty without.
std::string bent_section(const ReportRow& row, const std::string& id);

struct Chart {
    std::string title, unit;
    std::vector<Curve> curves;
    std::vector<double> marks; ///< stations with a thin line
    bool from_zero = true;
    std::vector<double> extent; ///< of x, two stations; empty: that of the curves
    bool across = false;        ///< over y instead of the station
    std::string over{};         ///< what x is instead, with its unit: "travel, mm"
};
std::string chart_picture(const Chart& chart, const std::string& id);

/// A table folded away under its picture: for screen readers, and for copying.
struct DataTable {
    std::string title; ///< what it is the data of
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows; ///< the first cell is the row's head
};
std::string folded(const DataTable& table);
/// A table that scrolls where the screen is narrow. Heads and rows ("<tr>...</tr>") are markup;
/// columns of words come behind those of numbers and are set left.
std::string html_table(const std::string& label, const std::vector<std::string>& columns,
                       const std::string& rows, const std::vector<std::string>& words = {});
/// Values of curves at about 25 even stations between the ends of the first.
DataTable curve_table(const std::string& title, const std::string& unit,
                      const std::vector<Curve>& curves);
/// Straight between points; nan outside. x does not fall.
double value_at(const Curve& curve, double x);

/// Heights along the board, 20 times as high as long, the first curve the mould; what rises beyond
/// the picture is cut. \param contact stations with a thin line [mm] \param id unique on the page
std::string profile_picture(const std::vector<Curve>& curves, const std::vector<double>& contact,
                            const std::string& id);

} // namespace vrid

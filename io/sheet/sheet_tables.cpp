#include <cmath>
#include <sstream>

#include "io/sheet/shop_sheet.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

// To a tenth of a micrometre: what is measured on regions is good to their chords of 20 nm, and
// more digits would be the noise of their grid (-766.999999 for -767).
std::string cell_mm(double value) {
    constexpr double steps = 1e4; // in a millimetre
    return csv_cell(std::round(steps * from_si("x_mm", value)) / steps);
}

std::string cell_grams(double value) {
    return csv_cell(from_si("mass_g", value));
}

std::string cell_square_mm(double value) {
    return csv_cell(from_si("x_mm", from_si("x_mm", value)));
}

std::string sanding_csv(const CoreBlank& core) {
    std::ostringstream out;
    out << "x_from_tail_end_mm,x_mm,thickness_mm,slope_mm_per_m,station\n";
    for (const SandingRow& row : core.sanding) {
        out << cell_mm(row.from_end) << ',' << cell_mm(row.x) << ',' << cell_mm(row.thickness)
            << ',' << cell_mm(row.slope) << ',' << (row.station ? "yes" : "") << '\n';
    }
    return out.str();
}

std::string cutting_csv(const ShopSheet& sheet) {
    std::ostringstream out;
    out << "piece,layer,made_of,mirror_image,roll_angle_deg,turned_over,count,area_mm2,length_mm,"
           "width_mm,dry_mass_g,file\n";
    for (std::size_t i = 0; i < sheet.pieces.size(); ++i) {
        const CutPiece& piece = sheet.pieces[i];
        out << i + 1 << ',' << csv_text(piece.layer) << ',' << csv_text(piece.made_of) << ','
            << (piece.mirror_image ? "yes" : "") << ',' << csv_cell(roll_degrees(piece)) << ','
            << (piece.turned_over ? "yes" : "") << ",1," << cell_square_mm(piece.area) << ','
            << cell_mm(piece.length) << ',' << cell_mm(piece.width) << ','
            << cell_grams(piece.dry_mass) << ',' << piece_file(sheet, i) << ".svg\n";
    }
    return out.str();
}

std::string rolls_csv(const ShopSheet& sheet) {
    std::ostringstream out;
    out << "fabric,boards,roll_width_mm,length_mm,net_area_mm2,waste_percent,pieces_joined\n";
    for (const RollUse& roll : sheet.rolls) {
        out << csv_text(roll.fabric) << ',' << sheet.options.boards << ',';
        if (roll.roll_width > 0) {
            out << cell_mm(roll.roll_width) << ',' << cell_mm(roll.length) << ','
                << cell_square_mm(roll.area) << ',' << csv_cell(100 * roll.waste) << ','
                << roll.joined << '\n';
        } else {
            out << ",," << cell_square_mm(roll.area) << ",,\n";
        }
    }
    return out.str();
}

std::string strips_csv(const CoreBlank& core) {
    std::ostringstream out;
    out << "material,count,width_mm,length_mm,from_x_mm,to_x_mm,beyond\n";
    for (const StripCut& strip : core.strips) {
        out << csv_text(strip.material) << ',' << strip.count << ',' << cell_mm(strip.width) << ','
            << cell_mm(strip.length) << ',';
        out << (strip.x ? cell_mm((*strip.x)[0]) + "," + cell_mm((*strip.x)[1]) : ",") << ','
            << csv_text(strip.fill) << '\n';
    }
    return out.str();
}

std::string edge_csv(const ShopSheet& sheet) {
    std::ostringstream out;
    out << "from_x_mm,to_x_mm,length_mm,bends_deg,tightest_radius_mm,at_x_mm,sharp_corners\n";
    for (const EdgeRun& run : sheet.edges) {
        out << cell_mm(run.from_x) << ',' << cell_mm(run.to_x) << ',' << cell_mm(run.length) << ','
            << csv_cell(from_si("angle_deg", run.turn)) << ',' << cell_mm(run.tightest) << ','
            << cell_mm(run.tightest_x) << ',' << run.corners << '\n';
    }
    return out.str();
}

std::string resin_csv(const ShopSheet& sheet) {
    std::ostringstream out;
    out << "layer,resin,one_board_g,boards,all_boards_g\n";
    double sum = 0;
    const auto row = [&](const std::string& layer, const std::string& resin, double mass) {
        out << csv_text(layer) << ',' << csv_text(resin) << ',' << cell_grams(mass) << ','
            << sheet.options.boards << ',' << cell_grams(mass * sheet.options.boards) << '\n';
    };
    for (const ResinRow& each : resin_rows(sheet)) {
        row(each.layer, each.resin, each.mass);
        sum += each.mass;
    }
    row("sum", "", sum);
    return out.str();
}

std::string weights_csv(const ShopSheet& sheet) {
    std::ostringstream out;
    out << "step,what,adds_g,sum_g,one_standard_deviation_g\n";
    for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
        const LayUpStep& step = sheet.steps[i];
        out << i + 1 << ',' << csv_text(step.name) << ',' << cell_grams(step.mass) << ','
            << cell_grams(step.sum) << ',' << cell_grams(step.spread) << '\n';
    }
    return out.str();
}

std::string press_csv(const ShopSheet& sheet) {
    const PressLine line = sheet.press->line;
    std::ostringstream out;
    out << (line == PressLine::wanted_shape  ? "x_mm,wanted_mm\n"
            : line == PressLine::found_mould ? "x_mm,height_mm,wanted_mm,change_mm\n"
                                             : "x_mm,height_mm\n");
    for (const PressRow& row : press_rows(sheet)) {
        out << cell_mm(row.x) << ',' << cell_mm(row.height);
        if (line == PressLine::found_mould) {
            out << ',' << cell_mm(row.height + row.change) << ',' << cell_mm(row.change);
        }
        out << '\n';
    }
    return out.str();
}

} // namespace

void add_tables(const ShopSheet& sheet, StagedFiles& files) {
    if (sheet.core) {
        files.add("sanding.csv", sanding_csv(*sheet.core));
        files.add("strips.csv", strips_csv(*sheet.core));
    }
    files.add("cutting.csv", cutting_csv(sheet));
    if (!sheet.rolls.empty()) {
        files.add("rolls.csv", rolls_csv(sheet));
    }
    if (!sheet.edges.empty()) {
        files.add("edge.csv", edge_csv(sheet));
    }
    if (!resin_rows(sheet).empty()) {
        files.add("resin.csv", resin_csv(sheet));
    }
    files.add("weights.csv", weights_csv(sheet));
    if (sheet.press) {
        files.add(press_file(*sheet.press), press_csv(sheet));
    }
}

} // namespace vrid

#include "io/design/new_board.hpp"

#include <filesystem>

#include "io/design/board_draft.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

void check_answer(const std::string& out, const std::string& option, const ReadFrom& from) {
    if (out.empty()) {
        return;
    }
    const std::string folder = std::filesystem::path(out).parent_path().string();
    try {
        const BoardText moved{from.source.text, from.source.file, folder};
        if (read_board_text(moved, from.library).hash == from.board.hash) {
            return;
        }
    } catch (const InputError&) { // what the board names is not found from there
    }
    throw InputError(option, "what the board names (outline_csv, include) is found from its own "
                             "folder; accepted: that folder");
}

std::string new_board_text(const std::string& text, const std::string& file,
                           const std::string& verb, const std::string& strength) {
    BoardDraft draft = board_draft(text, file);
    const std::string mark = "(" + verb + ")";
    const std::string name = unspelled(draft.root["name"].value_or<std::string>(""));
    if (!name.empty() && !name.ends_with(mark)) {
        set_text(draft, {&draft.root, false}, "name", name + " " + mark);
    }
    const std::string changed = "# Values changed by vrid " + verb + "; ";
    std::string all = finished(draft);
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    const std::size_t start = all.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    if (std::string_view(all).substr(start).starts_with(changed)) { // of an earlier run
        const std::size_t end = all.find('\n', start);
        all.erase(start, end == std::string::npos ? end : end + 1 - start);
    }
    return all.insert(start, changed + strength + "." + draft.newline);
}

std::string renamed_board_text(const std::string& text, const std::string& file,
                               const std::string& name) {
    BoardDraft draft = board_draft(text, file);
    if (draft.root["name"].is_string()) {
        set_text(draft, {&draft.root, false}, "name", name);
    }
    return finished(draft);
}

std::string start_board() {
    return R"(# A board to begin with. vrid check says what it is, vrid solve how stiff.
# x runs to the nose from the middle of the running length, y to the left, z up from the
# underside of the base; angles turn from +x towards +y seen from above.
format = 1
name = "new board"

[planform]
running_length_mm = 1160
waist_width_mm = 252
nose_width_mm = 296
tail_width_mm = 292
nose_length_mm = 205
tail_length_mm = 195

[core]
thickness_mm = [[-770, 2.0], [-580, 2.6], [-270, 6.6], [0, 7.4], [270, 6.6], [580, 2.6], [780, 2.0]]
strips = [{ material = "poplar", width_mm = 18 }, { material = "ash", width_mm = 9 }]

[[layer]]
name = "base"
material = "uhmwpe"
thickness_mm = 1.3

[[layer]]
name = "lower triax"
fabric = "triax-680"

[[layer]]
name = "core"
core = true

[[layer]]
name = "nose ribbon"
fabric = "carbon-ud-150"
angle_deg = 30
zone = { x_mm = [250, 640], y_mm = [20, 70] }
mirror = true

[[layer]]
name = "upper triax"
fabric = "triax-680"
flip = true

[[layer]]
name = "top sheet"
material = "polyamide"
thickness_mm = 0.6

[fabric.triax-680]
resin = "epoxy"
fibre_volume_fraction = 0.46
plies = [
  { fibre = "e-glass", angle_deg =   0, areal_weight_gsm = 340 },
  { fibre = "e-glass", angle_deg =  45, areal_weight_gsm = 170 },
  { fibre = "e-glass", angle_deg = -45, areal_weight_gsm = 170 },
]

[fabric.carbon-ud-150]
resin = "epoxy"
fibre_volume_fraction = 0.5
plies = [{ fibre = "carbon-standard", angle_deg = 0, areal_weight_gsm = 150 }]

[edge]
material = "steel"
width_mm = 2.0
flange = { width_mm = 6.5, thickness_mm = 0.5, fill = 0.5 }

[sidewall]
material = "abs"
width_mm = 8

[stance]
width_mm = 540
setback_mm = 15
foot_length_mm = 100
foot_width_mm = 110

[mass_only]
resin_gsm = 300
inserts_per_foot = 12
insert_mass_g = 8.5
)";
}

} // namespace vrid

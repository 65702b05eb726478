#include "io/toml/fault_words.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <stdexcept>

#include "io/toml/accepted.hpp"
#include "io/toml/board_keys.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/digits_apart.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

/// `words` stand behind the key's path. In them %mm, %mm2 and %n are the next told number as a
/// length, an area or as it is; %f is what was found, %t the text found.
struct Words {
    Fault what;
    std::string_view words;
    bool file_tells = false; ///< a range or a name, which the reader of a file looks at itself
};

constexpr std::array all_words{
    Words{Fault::not_finite, "%f; accepted: a finite number", true},
    Words{Fault::not_positive, "%f; accepted: a number above 0", true},
    Words{Fault::negative, "%f; accepted: a number from 0 up", true},
    Words{Fault::no_share, "%f; accepted: a number above 0 and up to 1", true},
    Words{Fault::unknown_name, "found the text \"%t\"; accepted: a name among those of the board",
          true},
    Words{Fault::empty, "missing; accepted: at least one entry, or a name", true},
    Words{Fault::uneven, "found %n stations and %n values; accepted: as many of both"},
    Words{Fault::not_rising,
          "found the station %mm after %mm; accepted: stations that rise strictly"},
    Words{Fault::no_order, "%f; accepted: [from, to] with from below to"},
    Words{Fault::off_board, "%f; accepted: a range of stations that reaches the board"},
    Words{Fault::open_outline, "the pieces of the outline do not follow each other around the "
                               "board; accepted: a closed curve, counter-clockwise"},
    Words{Fault::contact_off_board, "%f; accepted: contact stations on the board, which reaches "
                                    "from x = %mm to %mm mm"},
    Words{Fault::narrow_contact, "%f; accepted: contact stations where the board is at least 1 mm "
                                 "wide; it is %mm mm wide at x = %mm mm"},
    Words{Fault::long_board, "the board is longer than %n m"},
    Words{Fault::idle_core, "no layer has core = true; accepted: [core] together with one"},
    Words{Fault::no_core_layer, "it replaces the core, but no layer has core = true"},
    Words{Fault::no_core, "missing; a layer has core = true, so the table [core] is required"},
    Words{Fault::name_twice, "found the text \"%t\"; accepted: a name that no other layer has"},
    Words{Fault::second_core_layer, "found true; accepted: one core layer"},
    Words{Fault::fill_everywhere, "not accepted without x_mm, where the strip ends"},
    Words{Fault::mirror_everywhere, "a layer without a zone is everywhere and has no mirror image"},
    Words{Fault::mirror_whole, "its mirror image lies on it; accepted: a zone on one side of y = "
                               "0, or no mirror"},
    Words{Fault::mirror_overlap, "its mirror image overlaps it over %mm2 mm2; accepted: a zone on "
                                 "one side of y = 0"},
    Words{Fault::mirror_crossing, "its mirror image crosses it; over %mm2 mm2 both lie there"},
    Words{Fault::mirror_core, "not accepted: the core is there once"},
    Words{Fault::inlay_core, "not accepted: the core is what a layer is let into"},
    Words{Fault::inlay_without_core, "there is no layer with core = true to let it into"},
    Words{Fault::short_ribbon,
          "%f; accepted: an end at least 0.1 mm from from_mm: a ribbon has a length"},
    Words{Fault::few_corners, "found %n; accepted: at least three corners [x, y]"},
    Words{Fault::crossing_sides, "the side from this corner to the next meets another side, lies "
                                 "on one or has no length; accepted: sides that meet at corners "
                                 "only"},
    Words{Fault::misses_board, "the zone misses the board"},
    Words{Fault::wide_band, "%f; accepted: with its flange, if any, less than half the width of "
                            "the board, %mm (mm)"},
    Words{Fault::feet_overlap, "%f; accepted: more than foot_length_mm, %mm: the feet overlap"},
    Words{Fault::front_foot_off, "%f; accepted: a stance whose front foot patch lies on the board"},
    Words{Fault::rear_foot_off, "%f; accepted: a stance whose rear foot patch lies on the board"},
    Words{Fault::wide_foot, "%f; accepted: up to %mm (mm): the patches' middles lie on y = 0, and "
                            "wider ones reach over the board's sides"},
    Words{Fault::inserts_without_mass, "inserts_per_foot and insert_mass_g must be given together"},
    Words{Fault::inserts_without_stance, "inserts lie in the foot patches: [stance] is missing"},
    Words{Fault::steep_surface, "the height changes by %n of the length along the board near x = "
                                "%mm mm; accepted: less than %n"},
    Words{Fault::folded_surface, "the surface falls to the station %mm mm and lies level beyond "
                                 "it, which makes a kink of slope %n; accepted: a last height "
                                 "near the tip, or a slope below %n"},
    Words{Fault::large_contraction, "%f; accepted: an absolute value below sqrt(E1/E2) = %n"},
    Words{Fault::no_ratio, "%f; accepted: a number above -1 and below 0.5", true},
    Words{Fault::not_isotropic, "its other moduli do not follow from E and nu; accepted: an "
                                "isotropic material, for which complete() sets them"},
    Words{Fault::lends_no_strength,
          "found the text \"%t\"; accepted: a ply with strengths, Xt_MPa among them"},
    Words{Fault::curved_cross, "found a smooth interpolation; accepted: Interpolation::linear"},
    Words{Fault::limits_cross, "%f; accepted: a number from min up", true},
};

const Words& words_of(Fault what) {
    const auto* found = std::ranges::find(all_words, what, &Words::what);
    if (found == all_words.end()) {
        throw std::logic_error("no words for fault " + std::to_string(static_cast<int>(what)));
    }
    return *found;
}

/// The name of a part's table in a file.
std::string_view table_name(PartOfBoard part) {
    constexpr std::array<std::string_view, 14> names{
        "planform", "core",   "layer",     "fabric",     "material", "tip_spacer", "edge",
        "sidewall", "stance", "mass_only", "rest_shape", "cure",     "tolerance",  "limits"};
    return names.at(static_cast<std::size_t>(part));
}

// The key that writes a member: its name with a unit behind it.
std::string key_of(const std::string& table, std::string_view field) {
    const std::string begin = std::string(field) + "_";
    std::string key(field);
    for (const BoardKey& row : board_keys()) {
        if (row.table == table && row.key == field) {
            return key;
        }
        if (row.table == table && row.key.starts_with(begin)) {
            key = row.key;
        }
    }
    return key;
}

struct KeyName {
    std::string path; ///< "layer.patch.zones[1].x_mm"
    std::string key;  ///< "x_mm", empty for a table
};

std::string in_brackets(int number) {
    return "[" + std::to_string(number) + "]";
}

// A file may write one of several names: which, tell the places that it has.
std::string item_path(const BoardPlace& at, const std::string& part, const KeyPlaces& places) {
    const std::string item = part + "." + std::string(at.list);
    if (at.list == "zone") {
        const std::string listed = part + ".zones" + in_brackets(at.item);
        return places.contains(part + ".zone") || (at.item == 0 && !places.contains(listed))
                   ? item
                   : listed;
    }
    if (at.list == "strips" && places.contains(part + ".strips_left")) {
        return part + ".strips_left" + in_brackets(at.item);
    }
    return at.item < 0 ? item : item + in_brackets(at.item);
}

KeyName name_of(const BoardPlace& at, const KeyPlaces& places) {
    std::string table(table_name(at.part));
    std::string path = table;
    if (!at.name.empty()) {
        path += "." + at.name;
    } else if (at.number >= 0) {
        path += in_brackets(at.number);
    }
    if (!at.list.empty()) {
        path = item_path(at, path, places);
        table += "." + std::string(at.list);
    }
    const std::string key = key_of(table, at.field);
    path += key.empty() ? "" : "." + key;
    return {path + (at.entry < 0 ? "" : in_brackets(at.entry)), key};
}

std::string found_text(const BoardFault& fault, const std::string& key) {
    const std::string all = joined(fault.found, ", ", [&](double value) {
        constexpr int digits = 12;
        return shortest(round_significant(from_si(key, value), digits));
    });
    return "found " + (fault.found.size() > 1 ? "[" + all + "]" : all);
}

void put(std::string& text, std::string_view mark, const std::string& value) {
    const auto at = text.find(mark);
    assert(at != std::string::npos);
    text.replace(at, mark.size(), value);
}

std::string told(const BoardFault& fault, const std::string& key) {
    std::string text(words_of(fault.what).words);
    for (const double value : fault.told) {
        const std::size_t at = std::min(text.find("%mm"), text.find("%n"));
        if (at == std::string::npos) {
            break; // words that do not tell it
        }
        const std::string mark = text.substr(at, 4);
        if (mark == "%mm2") {
            const double square = from_si("x_mm", from_si("x_mm", value));
            put(text, mark, number_text(round_significant(square, 3)));
        } else if (mark.starts_with("%mm")) {
            put(text, "%mm", number_text(from_si("x_mm", value)));
        } else {
            int digits = 4;
            for (const double other : fault.told) { // its bound is among them
                digits = std::max(digits, digits_apart(value, other, digits));
            }
            put(text, "%n", short_number(value, digits));
        }
    }
    if (text.starts_with("%f")) {
        put(text, "%f", found_text(fault, key));
    }
    if (text.find("%t") != std::string::npos) {
        put(text, "%t", fault.text);
    }
    return text;
}

// Of two layers of one name the places of the file are those of the first.
BoardPlace second_by_number(const BoardFault& fault) {
    BoardPlace at = fault.at;
    if (fault.what == Fault::name_twice) {
        at.name.clear();
    }
    return at;
}

} // namespace

std::string place_of(const KeyPlaces& places, std::string path) {
    for (;;) {
        if (const auto found = places.find(path); found != places.end()) {
            return found->second;
        }
        const std::size_t cut = path.find_last_of(".[");
        if (cut == std::string::npos) {
            return "";
        }
        path.resize(cut);
    }
}

Problem fault_words(const BoardFault& fault, const KeyPlaces& places) {
    const KeyName name = name_of(fault.at, places);
    return {place_of(places, name_of(second_by_number(fault), places).path),
            name.path + ": " + told(fault, name.key)};
}

bool is_warning(const BoardFault& fault) {
    return fault.what == Fault::mirror_crossing;
}

void note_faults(Reading& reading, const std::vector<BoardFault>& faults) {
    for (const BoardFault& fault : faults) {
        if (words_of(fault.what).file_tells) {
            continue;
        }
        Problem problem = fault_words(fault, reading.places);
        if (problem.place.empty()) {
            problem.place = reading.file + ":1:1";
        }
        using Note = void (*)(Reading&, std::string, std::string);
        const Note note = is_warning(fault) ? Note(note_warning) : Note(note_problem);
        note(reading, std::move(problem.place), std::move(problem.message));
    }
}

} // namespace vrid

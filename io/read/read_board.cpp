#include "io/read/read_board.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "io/materials/tolerances.hpp"
#include "io/read/board_problems.hpp"
#include "io/read/content_hash.hpp"
#include "io/read/read_tables.hpp"
#include "io/toml/fault_words.hpp"
#include "io/toml/read_text.hpp"
#include "io/write/design_path.hpp"
#include "mesh/board/check_board.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/material_keys.hpp"
#include "solver/design/design_kinds.hpp"

namespace vrid {

namespace {

struct Finished {
    NamedBoard read;
    std::vector<std::string> paths;
};

void read_format(TableReader& root) {
    const double format = root.number("format");
    if (!std::isnan(format) && format != 1) {
        root.wrong("format", "1");
    }
}

void keep_material(Board& board, const Stock& stock, const std::string& name) {
    if (const auto found = stock.materials.find(name); found != stock.materials.end()) {
        board.materials.insert(*found);
    }
}

// Of the stock, what the board uses.
void keep_used(Board& board, const Stock& stock) {
    for (const Layer& layer : board.layers) {
        keep_material(board, stock, layer.material);
        const auto fabric = stock.fabrics.find(layer.fabric);
        if (fabric == stock.fabrics.end()) {
            continue;
        }
        board.fabrics.insert(*fabric);
        keep_material(board, stock, fabric->second.resin);
        keep_material(board, stock, fabric->second.strengths_of);
        for (const FabricPly& ply : fabric->second.plies) {
            keep_material(board, stock, ply.fibre);
            keep_material(board, stock, ply.ply_material);
        }
    }
    if (board.core) {
        for (const auto* strips : {&board.core->strips, &board.core->strips_right}) {
            for (const Strip& strip : *strips) {
                keep_material(board, stock, strip.material);
                keep_material(board, stock, strip.fill);
            }
        }
    }
    keep_material(board, stock, board.tip_spacer ? board.tip_spacer->material : "");
    keep_material(board, stock, board.edge ? board.edge->material : "");
    keep_material(board, stock, board.sidewall ? board.sidewall->material : "");
}

// Keys asked for while reading, and what no key is called: the scales, stations and ends of zones,
// the values of fabrics and materials of the library.
std::vector<KeyPath> all_paths(Board board, const Reading& reading) {
    std::vector<KeyPath> paths = reading.keys;
    for (const Layer& layer : board.layers) {
        const auto [found, unknown] = board.fabrics.try_emplace(layer.fabric);
        if (unknown) { // a problem told elsewhere; the layer's scale is none
            found->second.plies.resize(1);
        }
    }
    for (const DesignPlace& place : design_places(board)) {
        paths.push_back({path_of(place.id), true});
    }
    for (const auto& [name, material] : board.materials) {
        for (const MaterialKey& key : material_keys(material.isotropic)) {
            paths.push_back({"material." + name + "." + std::string(key.key), true});
        }
    }
    return paths;
}

std::vector<std::string> names_of(const std::vector<KeyPath>& paths, bool only_numbers) {
    std::vector<std::string> names;
    for (const KeyPath& key : paths) {
        if (key.number || !only_numbers) {
            names.push_back(key.path);
        }
    }
    sort_distinct(names);
    return names;
}

// The order of the file, whatever the order of reading; other files' problems keep theirs.
void sort_by_place(std::vector<Problem>& problems, const std::string& file) {
    const auto line = [&](const Problem& problem) {
        const bool here = problem.place.starts_with(file + ":");
        return here ? std::atoi(problem.place.c_str() + file.size() + 1) : 0;
    };
    std::ranges::stable_sort(problems,
                             [&](const Problem& a, const Problem& b) { return line(a) < line(b); });
}

// The tables of its fabrics and materials have been looked at already.
void check_read_board(const Board& board, Reading& reading) {
    std::vector<BoardFault> faults = check_board(board);
    std::erase_if(faults, [](const BoardFault& fault) {
        return fault.at.part == PartOfBoard::material || fault.at.part == PartOfBoard::fabric;
    });
    note_faults(reading, faults);
    if (!reading.problems.empty()) {
        return;
    }
    for (Problem& problem : section_problems(board, reading.places)) {
        note_problem(reading, std::move(problem.place), std::move(problem.message));
    }
}

Finished read_all(const BoardText& source, const MaterialLibrary& library) {
    Reading reading{source.file, {}, {}, {}};
    const toml::table parsed = parse_toml(source.text, reading);
    TableReader root = TableReader::root(reading, parsed);
    Board board;
    board.file = source.file;
    read_format(root);
    board.name = root.text("name");
    OutlineSource outline;
    if (auto table = root.table_if("planform")) {
        board.planform = read_planform(*table, source.folder, outline).value_or(Planform{});
    } else if (!root.has("planform")) {
        root.problem("planform", "missing; the table [planform] is required");
    }
    Stock stock{library.materials, library.fabrics};
    for (const auto& [name, material] : library.materials) {
        if (!material.source.contains("alpha1_1e6K")) {
            stock.no_expansion[name] = "";
        }
    }
    const std::vector<std::string> included =
        read_included(root, source.file, source.folder, stock);
    read_own_stock(root, stock);
    board.layers = read_layers(root, stock);
    if (auto table = root.table_if("core")) {
        board.core = read_core(*table, stock);
    }
    read_hardware(board, root, stock);
    if (auto table = root.table_if("cure")) {
        board.cure = read_cure(*std::move(table));
    }
    read_limits(board.limits, root);
    keep_used(board, stock);
    if (board.cure) {
        check_expansions(board, root, stock);
    }
    const auto paths = all_paths(board, reading);
    read_tolerance(board.tolerance, root, names_of(paths, true));
    root.finish();
    check_read_board(board, reading);
    if (!reading.problems.empty()) {
        sort_by_place(reading.problems, reading.file);
        throw InputError(std::move(reading.problems));
    }
    std::vector<std::string_view> texts{source.text, outline.text};
    texts.insert(texts.end(), included.begin(), included.end());
    board.hash = content_hash(texts);
    return {
        {std::move(board),
         {library.folder, std::move(stock.materials), std::move(stock.fabrics), library.tolerance},
         std::move(reading.warnings),
         std::move(reading.places),
         outline.fit},
        names_of(paths, false)};
}

} // namespace

Board read_board_text(const BoardText& source, const MaterialLibrary& library) {
    return read_all(source, library).read.board;
}

BoardText board_text(const std::string& path) {
    return {read_text(path), path, std::filesystem::path(path).parent_path().string()};
}

Board read_board(const std::string& path, const MaterialLibrary& library) {
    return read_board_text(board_text(path), library);
}

NamedBoard read_named_board(const BoardText& source, const MaterialLibrary& library) {
    return read_all(source, library).read;
}

std::vector<Problem> judged_warnings(const NamedBoard& read) {
    std::vector<Problem> warnings = read.warnings;
    const std::vector<Problem> found = implausible(read.board, read.places);
    warnings.insert(warnings.end(), found.begin(), found.end());
    sort_by_place(warnings, read.board.file);
    return warnings;
}

std::vector<std::string> board_key_paths(const BoardText& source, const MaterialLibrary& library) {
    return read_all(source, library).paths;
}

} // namespace vrid

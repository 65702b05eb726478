#include "io/batch/folder_results.hpp"

#include "io/batch/file_bytes.hpp"

namespace vrid {

const BoardEntry& FolderResults::board() const {
    return result ? result->board : edge ? edge->board : strength->board.value;
}

std::string FolderResults::program() const {
    return result ? result->program : edge ? edge->program : strength->program;
}

FolderResults read_folder(const std::filesystem::path& folder) {
    FolderResults found;
    const auto read = [&]<class Whole>(const char* name, const char* mark,
                                       std::optional<Whole>& into) {
        std::error_code error;
        if (const auto path = folder / name; std::filesystem::exists(path, error)) {
            into = read_whole<Whole>(file_bytes(path), path.string(), mark);
        }
    };
    read("result.json", "cases", found.result);
    read("strength.json", "strength", found.strength);
    read("edge.json", "conditions", found.edge);
    return found;
}

FolderResults compared_of(const FoundEdge& edge) {
    FolderResults found;
    static_cast<BoardOnEdge&>(found.edge.emplace()) = *edge.compared;
    found.compared = true;
    return found;
}

} // namespace vrid

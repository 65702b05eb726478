#include "io/live/sitting.hpp"

#include <algorithm>

#include "io/design/edit_board.hpp"
#include "io/live/board_values.hpp"
#include "io/read/content_hash.hpp"
#include "io/write/caution.hpp"
#include "io/write/staged_files.hpp"
#include "solver/study.hpp"

namespace vrid {
namespace fs = std::filesystem;

namespace {

std::string revision_of(const std::string& text) {
    return content_hash({text});
}

constexpr std::size_t kept_revisions = 4; // pages with unsaved changes go on with what they opened

} // namespace

void check_file_name(const std::string& name) {
    const bool plain = std::ranges::all_of(
        name, [](unsigned char c) { return c >= ' ' && c != 127 && c != '/' && c != '\\'; });
    if (!plain || name.size() < 6 || name.size() > 200 || name[0] == '.' ||
        !name.ends_with(".toml")) {
        throw InputError("name", "found \"" + name +
                                     "\"; accepted: a name that ends with .toml, without a "
                                     "folder, for a file beside this one");
    }
}

Sitting::Sitting(const std::string& path, Settings settings)
    : file_(fs::exists(path) ? fs::canonical(path) : fs::path(path)),
      settings_(std::move(settings)), library_(load_material_library()) {
    known_.push_back(read());
}

Sitting::Opened Sitting::read() const {
    BoardText source = board_text(file_.string());
    source.file = file_.filename().string(); // messages name it without its folder
    NamedBoard named = read_named_board(source, library_);
    std::string revision = revision_of(source.text);
    Session session(named.board, settings_);
    return std::make_shared<OpenedBoard>(
        OpenedBoard{std::move(source), std::move(named), std::move(revision), std::move(session)});
}

Sitting::Opened Sitting::find(const std::string& revision) {
    const std::scoped_lock lock(state_);
    for (const Opened& one : known_) {
        if (one->revision == revision) {
            return one;
        }
    }
    throw FileChanged("the page shows an older version of the file, which is no longer kept");
}

std::string Sitting::revision_now() const {
    try {
        return revision_of(board_text(file_.string()).text);
    } catch (const InputError&) {
        return "";
    }
}

Json Sitting::opened() {
    Opened now = read();
    {
        const std::scoped_lock lock(state_);
        const auto same = std::ranges::find_if(known_, [&](const Opened& one) {
            return one->revision == now->revision && one->read.board.hash == now->read.board.hash;
        });
        if (same != known_.end()) {
            now = *same; // with the mesh it has
        } else {
            std::erase_if(known_,
                          [&](const Opened& one) { return one->revision == now->revision; });
            known_.push_back(now);
            if (known_.size() > kept_revisions) {
                known_.erase(known_.begin());
            }
        }
    }
    Json json{{"file", now->source.file}, {"name", now->read.board.name}};
    json["revision"] = now->revision;
    json["caution"] = caution;
    json["values"] = values_json(now->read, file_values(now->source));
    json["cases"] = possible_cases(now->read.board);
    json["shape"] = shape_json(now->read.board, 0);
    json["warnings"] = Json::array();
    for (const Problem& problem : judged_warnings(now->read)) {
        json["warnings"].push_back(problem.place + ": " + problem.message);
    }
    json["files"] = Json::array();
    std::error_code unread;
    for (const auto& entry : fs::directory_iterator(file_.parent_path(), unread)) {
        const std::string name = entry.path().filename().string();
        if (name.ends_with(".toml") && name[0] != '.' && json["files"].size() < 500) {
            json["files"].push_back(name);
        }
    }
    std::sort(json["files"].begin(), json["files"].end());
    return json;
}

Sitting::Opened Sitting::other_text(const Opened& opened, const std::vector<Change>& changes) {
    BoardText source = opened->source;
    source.text = with_file_values(source, changes);
    std::string revision = opened->revision + revision_of(source.text);
    const auto same = [&](const Opened& one) { return one->revision == revision; };
    {
        const std::scoped_lock lock(state_);
        const auto found = std::ranges::find_if(derived_, same);
        if (found != derived_.end()) {
            return *found;
        }
    }
    NamedBoard named = read_named_board(source, library_);
    Session session(named.board, settings_);
    Opened made = std::make_shared<OpenedBoard>(
        OpenedBoard{std::move(source), std::move(named), std::move(revision), std::move(session)});
    const std::scoped_lock lock(state_);
    derived_.push_back(made);
    if (derived_.size() > kept_revisions) {
        derived_.erase(derived_.begin());
    }
    return made;
}

Sitting::Changed Sitting::changed(const std::string& revision, const std::vector<Change>& changes) {
    Opened base = find(revision);
    const std::vector<std::string> design = still_value_paths(base->read.board);
    std::vector<Change> of_mesh, rest;
    for (const Change& change : changes) {
        const bool still = std::ranges::binary_search(design, change.path);
        (still ? rest : of_mesh).push_back(change);
    }
    if (!of_mesh.empty()) {
        base = other_text(base, of_mesh);
    }
    Board board = base->read.board;
    apply_changes(board, rest, base->read.named);
    return {std::move(base), std::move(rest), std::move(board)};
}

Json Sitting::drawn(const std::string& revision, const std::vector<Change>& changes, double x_mm) {
    return shape_json(changed(revision, changes).board, x_mm);
}

Json Sitting::lines(const std::string& revision, const std::vector<Change>& changes) {
    const Changed now = changed(revision, changes);
    Json lines = Json::array();
    for (const ChangedLine& line : changed_lines(
             find(revision)->source.text, edit_board(now.base->source, library_, now.rest))) {
        lines.push_back({{"line", line.line}, {"added", line.added}, {"text", line.text}});
    }
    return {{"lines", lines}};
}

Json Sitting::write(const std::string& revision, const std::vector<Change>& changes,
                    const std::optional<std::string>& name) {
    const Changed now = changed(revision, changes);
    const std::string text = edit_board(now.base->source, library_, now.rest);
    fs::path target = file_;
    const std::scoped_lock lock(state_); // two pages do not write at once
    if (name) {
        check_file_name(*name);
        target = file_.parent_path() / *name;
        if (fs::exists(fs::symlink_status(target))) {
            throw InputError("name", "found \"" + *name +
                                         "\", which exists; accepted: the name of a new file");
        }
    } else if (revision_now() != revision) {
        throw FileChanged(now.base->source.file + " was changed or removed on the disk since the "
                                                  "page opened it; nothing was written");
    }
    write_file(target, text);
    return {{"written", target.filename().string()}, {"revision", revision_of(text)}};
}

void Sitting::stop() {
    const std::scoped_lock lock(state_);
    stopped_ = true;
}

} // namespace vrid

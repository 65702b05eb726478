// What of a sitting is computed.
#include <algorithm>

#include "io/design/number_names.hpp"
#include "io/live/board_values.hpp"
#include "io/live/sitting.hpp"
#include "solver/study.hpp"

namespace vrid {
namespace fs = std::filesystem;

namespace {

constexpr std::size_t kept_pages = 256;

} // namespace

/// Whatever else a page has asked for ends when it asks for solved numbers anew.
std::function<void(const std::string&, double)> Sitting::ticket(const std::string& page,
                                                                const std::string& what) {
    const std::scoped_lock lock(state_);
    const std::string own = page + " " + what;
    for (const std::string& key : {page, own}) {
        if (newest_.size() >= kept_pages && !newest_.contains(key)) {
            newest_.erase(std::ranges::min_element(
                newest_, [](auto& a, auto& b) { return a.second < b.second; }));
        }
        if (what.empty() || key == own) {
            newest_[key] = ++tickets_;
        }
    }
    return [this, page, own, leading = newest_[page], mine = newest_[own]](const std::string&,
                                                                           double) {
        const std::scoped_lock look(state_);
        const auto is_still = [&](const std::string& key, std::uint64_t number) {
            const auto found = newest_.find(key);
            return found != newest_.end() && found->second == number;
        };
        if (stopped_ || !is_still(page, leading) || !is_still(own, mine)) {
            throw Superseded();
        }
    };
}

BoardNumbers Sitting::numbers(const Changed& changed, const std::vector<NumberId>& asked,
                              const NumbersWanted& wanted, const std::string& page,
                              const std::string& what) {
    Settings settings = settings_;
    settings.progress = ticket(page, what);
    const std::scoped_lock turn(solving_);
    settings.tell("waited", 0);
    changed.base->session.prepared(); // copies share a mesh once it is made
    Session session = changed.base->session.on_mesh(changed.board);
    session.use(settings);
    return session.numbers(asked, wanted);
}

Json Sitting::solved(const std::string& revision, const std::vector<Change>& changes,
                     const std::string& page, bool slopes) {
    const Changed now = changed(revision, changes);
    return numbers_json(now.board, numbers(now, plain_requests(now.board), {slopes, false, {}},
                                           page, slopes ? "slopes" : ""));
}

Json Sitting::motion(const Changed& changed, const std::string& bench_case, bool twist,
                     const std::string& page) {
    StudyOptions options;
    static_cast<Settings&>(options) = settings_;
    options.progress = ticket(page, "over");
    options.cases = {bench_case};
    const std::scoped_lock turn(solving_);
    options.tell("waited", 0);
    options.prepared = changed.base->session.prepared();
    return motion_json(changed.board, run_study(changed.board, options), twist);
}

Json Sitting::over(const std::string& revision, const std::vector<Change>& changes,
                   const std::string& what, const std::string& page) {
    const Changed now = changed(revision, changes);
    const std::size_t space = what.find(' ');
    const std::string kind = what.substr(0, space);
    const std::string of = space == std::string::npos ? "" : what.substr(space + 1);
    Json json;
    if (kind == "sanding") {
        json = sanding_json(
            numbers(now, {parse_number(of, now.board)}, {true, true, {}}, page, "over"));
    } else if (kind == "deflection" || kind == "twist") {
        json = motion(now, of, kind == "twist", page);
    } else {
        throw InputError("what", "found \"" + what +
                                     "\"; accepted: deflection CASE, twist CASE, sanding NUMBER");
    }
    json["what"] = what;
    return json;
}

Json Sitting::other(const std::string& name, const std::string& page) {
    check_file_name(name);
    BoardText source = board_text((file_.parent_path() / name).string());
    source.file = name;
    NamedBoard named = read_named_board(source, library_);
    Settings settings = settings_;
    settings.progress = ticket(page, "other");
    const std::scoped_lock turn(solving_);
    settings.tell("waited", 0);
    Session session(named.board, settings);
    Json json =
        numbers_json(named.board, session.numbers(plain_requests(named.board), {false, false, {}}));
    json["name"] = named.board.name;
    return json;
}

} // namespace vrid

// Every verb that takes a board takes a random one that `check` accepts.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/random_board_file.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Json = nlohmann::json;

namespace {

// Values that are null without a reason beside them.
void count_nulls(const Json& json, int& nulls) {
    if (json.is_object() && json.contains("reason")) {
        return;
    }
    for (const auto& [key, value] : json.items()) {
        if (value.is_structured()) {
            count_nulls(value, nulls);
        } else {
            nulls += value.is_null() ? 1 : 0;
        }
    }
}

} // namespace

TEST_CASE("check, solve, edge and sense take random board files and print numbers only") {
    const TemporaryFolder folder;
    int with_feet = 0;
    for (unsigned seed = 4000; with_feet < 3; ++seed) {
        const RandomBoardFile file = random_board_file(seed);
        if (file.toml.find("[stance]") == std::string::npos) {
            continue;
        }
        ++with_feet;
        INFO("seed " << seed << "\n" << file.toml);
        (void)folder.file("outline.csv", file.csv);
        const std::string board = folder.file("board.toml", file.toml);
        const std::vector<std::vector<std::string>> verbs{
            {"check", board, "--json"},
            {"solve", board, "--degree", "2", "--json"},
            {"edge", board, "--json"},
            {"sense", board, "--of", "centre-flex", "--json"}};
        for (const std::vector<std::string>& words : verbs) {
            const Run run = run_program(words);
            INFO(words.front() << "\n" << run.err);
            CHECK((run.status == 0 || run.status == 1)); // 1: a limit is exceeded
            int nulls = 0;
            count_nulls(Json::parse(run.out, nullptr, false), nulls);
            CHECK(nulls == 0);
        }
    }
}

// Seeded faults (tests/faults) are run by hand: a patch that no longer applies would be found then
// only.
#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/house/source_files.hpp"

using namespace vrid::tests;

TEST_CASE("every seeded fault still stands on lines that are there, once") {
    const std::vector<std::string> patches = files_under({"tests/faults"}, {".patch"});
    CHECK(patches.size() > 20);
    for (const std::string& patch : patches) {
        std::vector<std::string> source;
        std::vector<std::string> before; // of a hunk: what stays and what goes
        const auto check = [&] {
            if (!before.empty()) {
                CAPTURE(patch, before);
                const auto place =
                    std::search(source.begin(), source.end(), before.begin(), before.end());
                REQUIRE(place != source.end());
                CHECK(std::search(place + 1, source.end(), before.begin(), before.end()) ==
                      source.end());
                before.clear();
            }
        };
        for (const std::string& line : lines_of(patch)) {
            if (line.starts_with("--- a/")) {
                check();
                source = lines_of(line.substr(6));
                CHECK(!source.empty());
            } else if (line.starts_with("@@")) {
                check();
            } else if (!source.empty() && !line.starts_with("+")) {
                before.push_back(line.substr(std::min<std::size_t>(1, line.size())));
            }
        }
        check();
    }
}

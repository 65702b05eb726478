
#include <regex>
#include <string>

#include <catch2/catch.hpp>

#include "io/batch/job.hpp"
#include "io/design/new_board.hpp"
#include "io/toml/accepted.hpp"
#include "io/toml/board_keys.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string without_comments(const std::string& text) {
    std::string left;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at) + 1;
        std::string line = text.substr(at, end - at - 1);
        if (!line.empty() && !line.starts_with('#')) {
            line = line.substr(0, line.find("  # "));
            left += line + "\n";
        }
        at = end;
    }
    return left;
}

} // namespace

TEST_CASE("the board to begin with is a usual board") {
    const NamedBoard read =
        read_named_board({commented_board(start_board()), "new.toml", ""}, shipped_library());
    CHECK(judged_warnings(read).empty());
    CHECK(read.board.stance);
}

TEST_CASE("comments change neither the values nor the lines of a board file") {
    for (const std::string& text : {start_board(), demo_board_text()}) {
        const std::string commented = commented_board(text);
        CHECK(resolved_text(read_text_board(commented)) == resolved_text(read_text_board(text)));
        CHECK(without_comments(commented) == without_comments(text));
    }
}

TEST_CASE("every key of the format stands in a commented file, with its meaning") {
    for (const std::string& text : {start_board(), demo_board_text()}) {
        const std::string commented = commented_board(text);
        for (const BoardKey& row : board_keys()) {
            INFO(row.table << " " << row.key);
            CHECK(has(commented, std::string(row.meaning)));
        }
        CHECK(has(commented, "of the sheet; mm, above 0 to 200; required with material"));
    }
}

TEST_CASE("a sample value is inside its range") {
    for (const BoardKey& row : board_keys()) {
        const std::string sample(row.sample);
        INFO(row.table << "." << row.key << " = " << sample);
        if (row.form == KeyForm::text) {
            CHECK((sample.starts_with('"') && sample.ends_with('"')));
        }
        if (row.form != KeyForm::number && row.form != KeyForm::whole &&
            row.form != KeyForm::pair) {
            continue;
        }
        const std::string range = std::string(row.table) + "." + std::string(row.key);
        const std::regex number("-?[0-9][0-9.]*");
        int count = 0;
        for (std::sregex_iterator at(sample.begin(), sample.end(), number), end; at != end; ++at) {
            CHECK(is_accepted(accepted(range), std::stod(at->str())));
            ++count;
        }
        CHECK(count == (row.form == KeyForm::pair ? 2 : 1));
    }
}

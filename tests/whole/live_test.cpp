// The live page in a real browser. Without one these tests fail: README's test command installs it.
#include <cmath>
#include <filesystem>
#include <fstream>

#include <catch2/catch.hpp>

#include "tests/places.hpp"
#include "tests/whole/browser.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string board = content(std::string(source_dir) + "/examples/nh-157-querwind/board.toml");
// The same of a board pressed flat: its slopes take a quarter of the time.
const std::string flat = std::string(board).erase(
    board.find("[rest_shape]"), board.find("[limits]") - board.find("[rest_shape]"));
const std::string station = "[aria-label='core thickness at x = 357.5 mm']";
const std::string twist = "document.querySelector('output[aria-label=\"nose-twist\"]')";
const std::string solved = twist + "?.dataset.state === 'solved'";

// Predictions need slopes, which come a little after the first numbers.
const std::string sloped =
    "document.querySelector(\"[data-step='core.thickness_mm[11]']\").textContent.includes('more:')";

const std::string written = "document.getElementById('state').textContent.startsWith('Written')";

/// A board on the live page of a browser.
struct Page {
    TemporaryFolder folder;
    std::string file;
    RunningProgram live{{built_program, "live", file}, "http://"};
    Browser browser{1280, 900};

    explicit Page(const std::string& text = flat) : file(folder.file("board.toml", text)) {
        browser.open(live.line());
        REQUIRE(browser.comes(solved));
        REQUIRE(browser.comes(sloped));
    }
    double number() { return std::stod(shown()); }
    std::string shown() { return browser.script("return " + twist + ".textContent"); }
    std::string state() { return browser.script("return " + twist + ".dataset.state"); }
    std::string text(const std::string& id) {
        return browser.script("return document.getElementById(arguments[0]).textContent", {id});
    }
    void press(const std::string& id) { browser.click(browser.find("#" + id)); }
};

/// What `vrid solve` prints for nose-twist of that file.
std::string solve(const std::string& file) {
    const std::string out = run_program({"solve", file, "--case", "nose-twist"}).out;
    const std::size_t at = out.find_first_not_of(' ', out.find("nose-twist") + 10);
    return out.substr(at, out.find(' ', at) - at);
}

} // namespace

TEST_CASE(
    "a station dragged on the live page shows a prediction, then the number that solve prints "
    "of the written file, and can be undone") {
    Page page;
    CHECK(page.shown() == solve(page.file));
    const double before = page.number();
    page.browser.press_down(page.browser.find(station));
    page.browser.move_by(0, -12);
    REQUIRE(page.browser.comes(twist + ".dataset.state === 'about'"));
    CHECK(page.browser.script("return " + twist + ".parentNode.textContent")
              .get<std::string>()
              .starts_with("about "));
    const double about = page.number();
    page.browser.release();
    REQUIRE(page.browser.comes(solved));
    const double after = page.number();
    CHECK(after > before + 0.01);
    CHECK(std::abs(about - after) < 0.2 * (after - before)); // first order
    page.press("undo");
    REQUIRE(page.browser.comes(solved + " && document.getElementById('undo').disabled"));
    CHECK(page.number() == before);
    page.press("redo");
    REQUIRE(page.browser.comes(solved + " && document.getElementById('redo').disabled"));
    CHECK(page.number() == after);
    page.press("write");
    REQUIRE(page.browser.comes("document.getElementById('dialog').open"));
    CHECK_THAT(page.text("diff"), Contains("[357.5, 6"));
    page.press("dialog-yes");
    REQUIRE(page.browser.comes(written));
    REQUIRE(page.browser.comes(solved));
    CHECK(content(page.file) != flat);
    CHECK(page.shown() == solve(page.file));
    CHECK(page.live.interrupted() == 130);
}

TEST_CASE("the live page needs the keyboard only, and refuses a value in the reader's own words") {
    Page page;
    const auto focused = [&] {
        return page.browser.script("return document.activeElement.getAttribute('aria-label')");
    };
    for (int i = 0; i < 60 && focused() != "core thickness at x = 357.5 mm"; ++i) {
        page.browser.press({key_tab});
    }
    REQUIRE(focused() == "core thickness at x = 357.5 mm");
    const std::string slider = page.browser.find(station);
    CHECK(page.browser.role(slider) == "slider");
    page.browser.press({key_up, key_up});
    page.browser.press({key_up}, key_shift);
    const std::string now = "document.activeElement.getAttribute('aria-valuetext') === ";
    CHECK(page.browser.comes(now + "'6.6 mm'"));
    CHECK(page.browser.comes("!document.getElementById('undo').disabled"));
    page.browser.press({"z"}, key_control);
    CHECK(page.browser.comes(now + "'6 mm'"));
    REQUIRE(page.browser.comes(solved));
    const std::string before = page.shown();
    const std::string field = page.browser.find("[data-value='layer.top sheet.thickness_mm']");
    page.browser.script("arguments[0].select()",
                        {{{"element-6066-11e4-a52e-4f735466cecf", field}}});
    page.browser.type(field, std::string("-1") + key_enter);
    REQUIRE(page.browser.comes("document.querySelector('[aria-invalid]')"));
    const Run refused =
        run_program({"check", page.file, "--set", "layer.top sheet.thickness_mm=-1"});
    const std::string words =
        page.text(page.browser.script("return document.querySelector('[aria-invalid]').id")
                      .get<std::string>() +
                  "about");
    const std::size_t at = words.find("found");
    REQUIRE(at != std::string::npos);
    CHECK_THAT(refused.err, Contains(words.substr(at)));
    CHECK((page.shown() == before && page.state() == "solved"));
    CHECK(content(page.file) == flat);

    page.browser.press({key_escape}); // the field says again what the board has
    CHECK(page.browser.script("return document.activeElement.value") == "0.5");
    CHECK(page.browser.comes("!document.querySelector('[aria-invalid]')"));
    page.browser.press({key_up}); // a workshop step
    REQUIRE(page.browser.comes("!document.getElementById('write').disabled"));
    const auto go_to = [&](const std::string& id, const std::string& held) {
        for (int i = 0; i < 60; ++i) {
            page.browser.press({key_tab}, held);
            if (page.browser.script("return document.activeElement.id") == id) {
                return true;
            }
        }
        return false;
    };
    REQUIRE(go_to("write", key_shift));
    page.browser.press({key_enter});
    REQUIRE(page.browser.comes("document.getElementById('dialog').open"));
    REQUIRE(go_to("dialog-yes", ""));
    page.browser.press({key_enter});
    REQUIRE(page.browser.comes(written));
    std::string expected = flat;
    expected.replace(expected.find("thickness_mm = 0.50"), 19, "thickness_mm = 0.6");
    CHECK(content(page.file) == expected);
}

TEST_CASE("two tabs of a live page do not disturb each other: one follows what the other writes, "
          "or asks") {
    Page page;
    const std::string first = page.browser.tab();
    const std::string second = page.browser.new_tab();
    page.browser.show_tab(second);
    page.browser.open(page.live.line());
    REQUIRE(page.browser.comes(solved));
    const auto thicken = [&] {
        page.browser.script("document.querySelector(arguments[0]).focus()", {station});
        page.browser.press({key_up});
        REQUIRE(page.browser.comes("!document.getElementById('write').disabled && " + solved));
    };
    const auto write = [&] {
        page.press("write");
        REQUIRE(page.browser.comes("document.getElementById('dialog').open"));
        page.press("dialog-yes");
        REQUIRE(page.browser.comes(written));
    };
    thicken();
    write();
    const std::string other = page.shown();
    page.browser.show_tab(first);
    REQUIRE(page.browser.comes(
        "document.getElementById('state').textContent.includes('changed in an editor')"));
    REQUIRE(page.browser.comes(solved));
    CHECK(page.shown() == other);
    thicken();
    page.browser.show_tab(second);
    thicken();
    write();
    const std::string twice = content(page.file);
    page.browser.show_tab(first);
    REQUIRE(page.browser.comes("!document.getElementById('external').hidden"));
    page.press("stay");
    page.press("write");
    REQUIRE(page.browser.comes("document.getElementById('dialog').open"));
    page.press("dialog-yes");
    REQUIRE(page.browser.comes("document.getElementById('dialog-problem').textContent"));
    CHECK_THAT(page.text("dialog-problem"), Contains("nothing was written"));
    CHECK(content(page.file) == twice);
}

TEST_CASE("every control of the live page has a name, and the page fits a telephone") {
    Page page(board);
    const std::string slider = page.browser.find(station);
    CHECK(page.browser.role(slider) == "slider");
    CHECK(page.browser.label(slider) == "core thickness at x = 357.5 mm");
    const std::string output = page.browser.find("output[aria-label='nose-twist']");
    CHECK(page.browser.role(output) == "status"); // as browsers call an output
    CHECK(page.browser.label(output) == "nose-twist");
    const auto nameless = page.browser.script(R"(
        return [...document.querySelectorAll('button, select, input, output, svg[role], [role=slider]')].filter(e => {
            const said = (e.getAttribute('aria-labelledby') || '').split(' ').map(i => document.getElementById(i)?.textContent || '').join('');
            return !(e.getAttribute('aria-label') || said || [...(e.labels || [])].map(l => l.textContent).join('') || e.tagName === 'BUTTON' && e.textContent);
        }).map(e => e.outerHTML.slice(0, 100)))");
    CHECK(nameless == Browser::Json::array());
    for (const int width : {1280, 820, 390}) {
        page.browser.resize(width, 800);
        CAPTURE(width);
        CHECK(page.browser.comes("document.documentElement.scrollWidth <= innerWidth"));
    }
    page.browser.script("document.querySelector(arguments[0]).focus()", {station});
    page.browser.press({key_up, key_up});
    const std::string fits =
        "(e => e.scrollWidth <= e.clientWidth)(document.querySelector('.scroll'))";
    REQUIRE(page.browser.comes(solved));
    CHECK(page.browser.script("return " + fits) == true);
    CHECK(page.browser.script("return /NaN|Infinity|undefined/.test(document.body.innerHTML)") ==
          false);
}

// What version 1.0.0 promises (README, Changes): names in promised_1.0.txt may not go away. The
// list grows with a version that promises more and never shrinks.
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

using Names = std::set<std::string>;

// What stands below these goes by the name of a case, a number, a material.
bool is_by_name(const std::string& path) {
    for (const char* table :
         {".cases", ".limits", ".mass_by_material", ".numbers", ".skipped", ".strength"}) {
        if (path.ends_with(table)) {
            return true;
        }
    }
    return false;
}

// "solve --json .cases.*.stiffness.value number": entries of a list, or by name, are one.
void add_places(const nlohmann::json& part, const std::string& path, Names& names) {
    if (part.is_object()) {
        const bool quantity =
            part.contains("value") && part.contains("error") && part.contains("unit");
        if (quantity) {
            names.insert(path + " with value, error and unit");
        }
        for (const auto& [key, value] : part.items()) {
            if (quantity && (key == "value" || key == "error" || key == "unit")) {
                continue;
            }
            add_places(value, path + "." + (is_by_name(path) ? "*" : key), names);
        }
    } else if (part.is_array()) {
        for (const nlohmann::json& value : part) {
            add_places(value, path + "[]", names);
        }
    } else if (!part.is_null()) {
        names.insert(path + ' ' + (part.is_number() ? "number" : part.type_name()));
    }
}

void add_document(const std::vector<std::string>& words, Names& names) {
    const Run run = run_program(words);
    INFO(run.err);
    REQUIRE(run.status <= 1); // 1: a limit is exceeded
    add_places(nlohmann::json::parse(run.out), words[0] + " --json ", names);
}

void add_keys(Names& names) {
    const nlohmann::json all = nlohmann::json::parse(run_program({"keys", "--json"}).out);
    for (const nlohmann::json& key : all["keys"]) {
        names.insert("key [" + key["table"].get<std::string>() + "] " +
                     key["key"].get<std::string>() + ", " + key["form"].get<std::string>() + ' ' +
                     key["unit"].get<std::string>());
    }
}

// "solve) options='--help --case' ;;" of the completion, which is written from the verbs' table.
void add_options(Names& names) {
    std::istringstream lines(run_program({"help", "--completion"}).out);
    for (std::string line; std::getline(lines, line);) {
        const std::size_t mark = line.find(") options='");
        if (mark == std::string::npos) {
            continue;
        }
        const std::string verb =
            line.substr(line.find_first_not_of(' '), mark - line.find_first_not_of(' '));
        const std::size_t begin = line.find('\'') + 1;
        std::istringstream options(line.substr(begin, line.rfind('\'') - begin));
        for (std::string option; options >> option;) {
            names.insert("vrid " + verb + ' ' + option);
        }
    }
}

Names names_now() {
    const std::string board = querwind;
    Names names;
    add_keys(names);
    add_options(names);
    add_document({"check", board, "--json"}, names);
    add_document({"solve", board, "--degree", "2", "--json"}, names);
    add_document({"solve", coupon, "--degree", "2", "--bend", "2", "--json"}, names);
    add_document({"edge", board, "--degree", "2", "--json"}, names);
    add_document({"strength", coupon, "--degree", "2", "--json"}, names);
    add_document({"sense", coupon, "--of", "centre-flex", "--json"}, names);
    add_document({"scatter", coupon, "--of", "mass", "--degree", "2", "--json"}, names);
    add_document({"materials", "--json"}, names);
    return names;
}

} // namespace

TEST_CASE("every key, option and name in a document that version 1.0.0 promises is there") {
    const Names now = names_now();
    std::ifstream file(std::string(source_dir) + "/tests/whole/promised_1.0.txt");
    int promised = 0;
    for (std::string line; std::getline(file, line); ++promised) {
        INFO(line);
        CHECK(now.count(line) == 1);
    }
    CHECK(promised > 300);
}

#include "io/write/fields.hpp"

#include "mesh/board/error.hpp"
#include "solver/response/error_bar.hpp"

namespace vrid {

namespace {

double in_range(const Json& json, const char* key) {
    constexpr double most = 1e100; // sums and squares of it are numbers still
    const double value = json.get<double>();
    must_hold(std::abs(value) <= most, std::string("'") + key + "' is no number that vrid writes");
    return value;
}

} // namespace

void must_hold(bool holds, const std::string& what) {
    if (!holds) {
        throw InputError("", what);
    }
}

void must_be_deviation(double sd, const std::string& of) {
    must_hold(!(sd < 0),
              "the deviation of '" + of + "' is " + significant(sd, 3) + ", accepted is 0 or more");
}

double number_of(const Json& json, const char* key) {
    return json.is_null() ? std::nan("") : in_range(json, key);
}

BenchQuantity quantity_in(const Json& json) {
    const double error = json.contains("error") ? number_of(json["error"], "error") : 0;
    return {number_of(json.at("value"), "value"), std::isnan(error) ? no_bar : error,
            json.at("unit").get<std::string>()};
}

void fill_from(const Json& json, const std::string& file,
               const std::function<void(const Json&)>& fill) {
    try {
        fill(json);
    } catch (const Json::exception& wrong) { // the library's own type stays behind this border
        throw InputError(file, std::string("is damaged: ") + wrong.what());
    } catch (const InputError& wrong) {
        throw InputError(file, std::string("is damaged: ") + wrong.what());
    }
}

void read_document(const std::string& text, const std::string& file, const char* mark,
                   const std::function<void(const Json&)>& fill) {
    const Json json = read_json(text);
    if (json.is_discarded()) {
        throw InputError(file, "is damaged: no JSON document can be read from it");
    }
    const auto version = json.is_object() ? json.find("format") : json.end();
    if (!json.is_object() || !json.contains(mark) || version == json.end()) {
        throw InputError(file, std::string("is no such document of vrid: 'format' or '") + mark +
                                   "' is missing");
    }
    if (*version != 1) {
        throw InputError(file,
                         "found format " + version->dump(-1, ' ', true) + ", accepted is format 1");
    }
    fill_from(json, file, fill);
}

} // namespace vrid

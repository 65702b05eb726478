#include "io/write/family_json.hpp"

#include "io/write/number.hpp"

namespace vrid {
namespace {

template <class Value> const Value* second_of(const Named<Value>& all, const std::string& what) {
    const auto found = all.find(what);
    return found == all.end() ? nullptr : &found->second;
}

} // namespace

std::string wanted_text(const FoundSizeTarget& target) {
    constexpr int digits = 5;
    const std::string min = target.min ? significant(*target.min, digits) : "";
    const std::string max = target.max ? significant(*target.max, digits) : "";
    return !min.empty() && !max.empty() ? min + " to " + max
           : !min.empty()               ? "at least " + min
           : !max.empty()               ? "at most " + max
                                        : significant(target.wanted, digits);
}

void check_part(FoundSize& size) {
    if (size.mass) {
        size.figures.emplace_back("mass", *size.mass);
    }
    const Json outline = size.outline.value_or(Json::object());
    for (const auto& [name, one] : outline.items()) {
        if (one.is_object() && one.contains("value")) {
            size.figures.emplace_back(name, quantity_in(one));
        } else if (name == "sidecut_radius") {
            const BenchQuantity left = quantity_in(one.at("left"));
            const BenchQuantity right = quantity_in(one.at("right"));
            size.figures.emplace_back(name, right.value < left.value ? right : left);
        }
    }
    for (const auto& [name, column] : size.along.value) {
        must_hold(column.size() == size.along.value.front().second.size(),
                  "the column '" + name + "' has another length");
    }
}

const BenchQuantity* FoundSize::figure(const std::string& what) const {
    return second_of(figures, what);
}

const std::vector<double>* FoundSize::column(const std::string& what) const {
    return second_of(along.value, what);
}

FoundFamily read_found_family(const std::string& text, const std::string& file) {
    return read_whole<FoundFamily>(text, file, "sizes");
}

} // namespace vrid

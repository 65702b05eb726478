#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

BenchCase cooled(const std::string& name, const std::string& where, double Cure::*cools_to) {
    BenchCase bench;
    bench.info = {name, "nothing", "cooled from where it holds no stress to " + where,
                  "camber, tip heights, hollow and twist against the mould"};
    bench.unit = Unit::length;
    bench.cools_to = cools_to;
    bench.stations = [](const Board&) { return std::vector<double>{}; };
    return bench;
}

} // namespace

BenchCase release() {
    return cooled("release", "the room", &Cure::room);
}
BenchCase cold() {
    return cooled("cold", "the cold", &Cure::cold);
}

} // namespace vrid

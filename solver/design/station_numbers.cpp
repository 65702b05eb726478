#include "solver/design/station_numbers.hpp"

#include <map>
#include <utility>

#include "solver/design/study_weights.hpp"
#include "solver/response/cross_section.hpp"

namespace vrid {

using Kind = NumberId::Kind;

std::vector<StationNumber> station_numbers(const Board& board,
                                           const std::vector<NumberId>& requests, bool weights) {
    const Layup<double> layup = make_layup<double>(board);
    std::map<double, std::pair<CrossSection, SectionWeights>> known;
    std::vector<StationNumber> all;
    for (const NumberId& request : requests) {
        const auto [here, fresh] = known.try_emplace(request.station);
        auto& [section, owed] = here->second;
        if (fresh) {
            section = cross_section(layup, request.station);
            if (weights) {
                owed = cross_section_weights(layup, request.station);
            }
        }
        StationNumber number{request.kind == Kind::EI   ? section.EI
                             : request.kind == Kind::GJ ? section.GJ
                                                        : section.thickness,
                             nullptr};
        if (weights && request.kind != Kind::thickness) {
            number.weights = std::make_shared<const SectionWeights>(
                columns_of(owed, {request.kind == Kind::EI ? 0 : 1}));
        }
        all.push_back(std::move(number));
    }
    return all;
}

} // namespace vrid

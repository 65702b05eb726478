#include "io/write/calibration_json.hpp"

namespace vrid {

void check_part(const CalibratedValue& one) {
    must_be_deviation(one.sd, one.path);
    must_be_deviation(one.prior_sd.value_or(0), one.path);
}

void check_part(const CalibratedReading& one) {
    must_hold(one.sd > 0, "the deviation of the reading '" + one.number + "' is not above 0");
}

CalibrationFindings read_calibration(const std::string& text, const std::string& file) {
    return read_whole<CalibrationFindings>(text, file, "readings");
}

} // namespace vrid

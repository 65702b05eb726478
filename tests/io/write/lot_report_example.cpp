#include "tests/io/write/lot_report_example.hpp"
#include "tests/degree.hpp"

namespace vrid::tests {
namespace {

LotModel two_numbers_of_three_values() {
    LotModel model;
    model.mean = Eigen::Vector2d(3.0, 0.0097);
    model.slopes = Eigen::MatrixXd{{200, 0, 0}, {1, 0, 1e-15}};
    model.value_sd = Eigen::Vector3d(1e-4, degree, 2e9);
    model.rig_sd = Eigen::Vector2d(0.004, 2e-5);
    model.bias_sd = Eigen::Vector2d(0.001, 1e-5);
    model.group = {0, 1, 2};
    model.groups = 3;
    model.free = {0, 1, 2};
    return model;
}

} // namespace

LotReport lot_report_example() {
    LotReport report;
    report.board = "plank";
    report.hash = "0123abcd";
    report.numbers = {{"mass", "g", 1e3}, {"thickness@0", "mm", 1e3}};
    report.values = {{"core.thickness_mm[3]", "mm", 1e3, 7.1e-3},
                     {"layer.glass.angle_deg", "deg", 1 / degree, 45 * degree},
                     {"material.ash.E1_GPa", "GPa", 1e-9, 12e9}};
    report.groups = {"core.thickness_mm", "layer.angle_deg", "material.ash"};
    report.serials = {"A1", "A2", "A3", "A4", "A5", "A6"};
    report.dates = {"2031-05-01", "2031-05-02", "2031-05-03", "", "2031-05-05", "2031-05-06"};
    report.texts = {{"press", {"P1", "P1", "P2", "P2", "", "P2"}}};
    report.rig_of_repeats = {true, false};
    report.model = two_numbers_of_three_values();
    report.readings.value = Eigen::MatrixXd::Constant(2, 6, 3.0);
    report.readings.value.row(1).setConstant(0.0097);
    report.readings.count = Eigen::MatrixXi::Constant(2, 6, 2);
    report.readings.count(1, 5) = 0;
    report.limits = {CapabilityLimits{2.9, {}}, {}};
    LotFindings& found = report.findings;
    found.columns = {{1.5, 1, 0.22}};
    found.columns_holm = {0.22};
    found.used = {0, 1, 2, 3, 4, 5};
    found.numbers.resize(2);
    found.numbers[0] = {3.0, 0.02, {3.01, 0.015, 6, 0.5625, 0.22, 3.38}, 0.0061, {}, {}};
    found.numbers[1].predicted = 0.0097; // of no boards
    found.numbers[1].predicted_sd = 2.5e-5;
    found.spread = LotSpread{3.25, 3, 0.35, 6};
    found.moved.p = 0.6;
    found.change.p = 0.4;
    return report;
}

} // namespace vrid::tests

#include "io/batch/batch_report.hpp"
namespace vrid {
std::string batch_report(const BatchPlan&, const std::filesystem::path&) {
    return "stub\n";
}
std::string folder_report(const std::filesystem::path&) {
    return "stub\n";
}
} // namespace vrid

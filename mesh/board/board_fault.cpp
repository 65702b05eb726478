#include "mesh/board/board_fault.hpp"

#include <cmath>

namespace vrid {

PartCheck PartCheck::in(std::string_view list, int item) const {
    PartCheck inner = *this;
    inner.at_.list = list;
    inner.at_.item = item;
    return inner;
}

void PartCheck::note(Fault what, std::string_view field, std::vector<double> found,
                     std::vector<double> told, int entry) {
    BoardPlace at = at_;
    at.field = field;
    at.entry = entry;
    faults_->push_back({std::move(at), what, std::move(found), std::move(told)});
}

bool PartCheck::finite(std::string_view field, double value, int entry) {
    if (!std::isfinite(value)) {
        note(Fault::not_finite, field, {value}, {}, entry);
    }
    return std::isfinite(value);
}

bool PartCheck::finite(std::string_view field, const Eigen::Vector2d& value, int entry) {
    if (!value.allFinite()) {
        note(Fault::not_finite, field, {value.x(), value.y()}, {}, entry);
    }
    return value.allFinite();
}

bool PartCheck::positive(std::string_view field, double value, int entry) {
    if (finite(field, value, entry) && !(value > 0)) {
        note(Fault::not_positive, field, {value}, {}, entry);
    }
    return std::isfinite(value) && value > 0;
}

bool PartCheck::not_negative(std::string_view field, double value) {
    if (finite(field, value) && value < 0) {
        note(Fault::negative, field, {value});
    }
    return std::isfinite(value) && value >= 0;
}

bool PartCheck::share(std::string_view field, double value) {
    const bool good = value > 0 && value <= 1;
    if (finite(field, value) && !good) {
        note(Fault::no_share, field, {value});
    }
    return good;
}

bool PartCheck::range(std::string_view field, const std::optional<Range>& range) {
    if (!range) {
        return true;
    }
    const auto [from, to] = *range;
    if (!finite(field, Eigen::Vector2d(from, to))) {
        return false;
    }
    if (!(from < to)) {
        note(Fault::no_order, field, {from, to});
    }
    return from < to;
}

bool PartCheck::profile(std::string_view field, const Profile& profile) {
    const std::size_t count = profile.x.size();
    if (count != profile.value.size()) {
        note(Fault::uneven, field, {},
             {static_cast<double>(count), static_cast<double>(profile.value.size())});
        return false;
    }
    if (count == 0) {
        note(Fault::empty, field);
        return false;
    }
    bool good = true;
    for (std::size_t i = 0; i < count; ++i) {
        const int entry = static_cast<int>(i);
        good = finite(field, Eigen::Vector2d(profile.x[i], profile.value[i]), entry) && good;
        if (i > 0 && profile.x[i] <= profile.x[i - 1]) {
            note(Fault::not_rising, field, {}, {profile.x[i], profile.x[i - 1]}, entry);
            good = false;
        }
    }
    return good;
}

} // namespace vrid

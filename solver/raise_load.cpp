#include "solver/raise_load.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace vrid {

namespace {

constexpr double wanted = 1e-3;      // of use
constexpr double longest_step = 2.1; // of ln load: eightfold
constexpr double least_load = 1e-3;  // of the start
constexpr double narrowest = 1e-3;   // between a load with a state and one without
constexpr int most_tries = 30;

// Both as logarithms.
struct Point {
    double load = 0, use = 0;
};

class Search {
  public:
    Search(double start, double most, const std::function<LoadTry(double)>& at)
        : at_(at), first_(std::log(start)), most_(std::log(most)) {}

    RaisedLoad run() {
        double load = first_;
        while (found_.tries < most_tries) {
            const LoadTry one = at_(std::exp(load));
            ++found_.tries;
            if (!one.why_not.empty()) {
                lost_ = load;
                why_ = one.why_not;
            } else {
                take({load, std::log(std::max(one.use, 1e-12))});
                if (std::abs(last_.use) <= wanted) {
                    return finish("");
                }
            }
            if (const std::string end = ended(); !end.empty()) {
                return finish(end);
            }
            load = next();
        }
        return finish("no load was found in " + std::to_string(most_tries) + " tries");
    }

  private:
    void take(const Point& point) {
        if (known_ && std::abs(point.load - last_.load) > 1e-9) {
            growth_ = std::clamp((point.use - last_.use) / (point.load - last_.load), 0.1, 4.0);
        }
        last_ = point;
        known_ = true;
        (point.use < 0 ? below_ : above_) = point.load;
    }

    [[nodiscard]] std::string ended() const {
        if (!known_) {
            return why_; // not even the first
        }
        if (last_.use < 0 && last_.load >= most_ - 1e-9) {
            return "it is the largest load that is tried";
        }
        if (last_.use > 0 && last_.load <= first_ + std::log(least_load)) {
            return "even a thousandth of the load is too much";
        }
        if (lost_ - below_ < narrowest && !std::isfinite(above_)) {
            return why_;
        }
        return "";
    }

    [[nodiscard]] double next() const {
        const double top = std::min({above_, lost_, most_});
        double load = last_.load + std::clamp(-last_.use / growth_, -longest_step, longest_step);
        load = std::clamp(load, first_ + std::log(least_load), most_);
        if (load >= lost_) {
            return (below_ + lost_) / 2;
        }
        const bool between = std::isfinite(below_) && std::isfinite(above_);
        return between && (load <= below_ || load >= top) ? (below_ + top) / 2 : load;
    }

    RaisedLoad finish(const std::string& why_not) {
        found_.load = std::exp(last_.load);
        found_.use = std::exp(last_.use);
        found_.growth = growth_;
        found_.why_not = why_not;
        return found_;
    }

    const std::function<LoadTry(double)>& at_;
    double first_, most_;
    RaisedLoad found_;
    Point last_;
    bool known_ = false;
    double growth_ = 1;
    double below_ = -std::numeric_limits<double>::infinity(); // loads with use below 1
    double above_ = std::numeric_limits<double>::infinity();  // above it
    double lost_ = std::numeric_limits<double>::infinity();   // without a state
    std::string why_;
};

} // namespace

RaisedLoad raise_load(double start, double most, const std::function<LoadTry(double)>& at) {
    return Search(start, most, at).run();
}

} // namespace vrid

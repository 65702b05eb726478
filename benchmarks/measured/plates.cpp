#include <array>

#include "benchmarks/measured/measured.hpp"

namespace vrid::measured {

namespace {

struct Plate {
    std::string name, file;
    std::array<double, 6> peaks;                      // Hz
    std::array<double, 6> blind, constants_of_source; // on record, Hz
    std::array<double, 3> tapped;                     // modes 3, 5, 6 on record, Hz
};

const std::vector<Plate>& all() {
    static const std::vector<Plate> table{
        {"2L",
         "plate-2l",
         {51.5, 76, 127.5, 163, 190.5, 208.5},
         {56.11765, 81.49771, 138.9897, 164.2713, 197.0579, 225.869},
         {51.77193, 75.87539, 128.6057, 162.2119, 190.3425, 210.3808},
         {128.5018, 190.5475, 211.3581}},
        {"2R",
         "plate-2r",
         {51.5, 75, 127, 159, 189, 207},
         {51.2176, 74.8357, 127.1745, 148.8949, 179.1475, 207.392},
         {51.60338, 74.79665, 127.7886, 153.5167, 182.6371, 208.1632},
         {127.8434, 187.238, 208.5066}},
        {"4L",
         "plate-4l",
         {54, 79.5, 135.5, 159.5, 196, 215},
         {53.19907, 77.96064, 132.2405, 154.1599, 185.7214, 216.0354},
         {54.89295, 77.96329, 134.6682, 159.9842, 192.3707, 215.3897},
         {134.4623, 190.8887, 220.3872}}};
    return table;
}

std::string mode(std::size_t number) {
    return "free-modes mode " + std::to_string(number);
}

std::vector<Row> six_modes(const std::string& ending,
                           const std::array<double, 6> Plate::*on_record) {
    std::vector<Row> rows;
    for (const Plate& plate : all()) {
        for (std::size_t k = 0; k < 6; ++k) {
            rows.push_back({plate.name, plate.file + ending, mode(k + 1), plate.peaks[k],
                            (plate.*on_record)[k]});
        }
    }
    return rows;
}

std::vector<Row> tapped_modes() {
    constexpr std::array<std::size_t, 3> predicted{3, 5, 6};
    std::vector<Row> rows;
    for (const Plate& plate : all()) {
        for (std::size_t k = 0; k < predicted.size(); ++k) {
            rows.push_back({plate.name, plate.file, mode(predicted[k]),
                            plate.peaks[predicted[k] - 1], plate.tapped[k],
                            plate.file + "-tapped"});
        }
    }
    return rows;
}

Set blind() {
    Set set;
    set.title = "Spruce plates, free, from a book and a pair of scales";
    set.short_title = "wood from a book";
    set.source = "Public repository "
                 "github.com/David-Badiane/Data-driven-characterization-of-spruce-tonewood-"
                 "plates (2023), data of Badiane, Malvermi, Gonzalez, Antonacci, Sarti, A neural "
                 "network-based "
                 "method for spruce tonewood characterization, J. Acoust. Soc. Am., 2023, no. 2, "
                 "730-738, doi "
                 "10.1121/10.0020559";
    set.given =
        "length, width and thickness (means of five and of ten readings), mass, peaks of the "
        "response to a hammer in bins of 0.5 Hz";
    set.assumed =
        "the constants of the library's spruce, another species; no pull from the threads, "
        "no mass of the accelerometer; modes go by their order, their shapes were not "
        "published. The thickness varies by 2.5 % over a plate; the mean is used";
    set.band = 10;
    set.why = "one piece of wood is within 20 % of the book in stiffness, 10 % in frequency";
    set.remark =
        "Of ten plates three have all of the first six peaks and a mass without contradiction. "
        "Left out: 1L (the fourth peak belongs to another mode), 1R, 3L, 3R (peaks missing), "
        "4R (two masses). Of 5L and 5R the sizes and masses can be read, but their peaks "
        "stand in a binary file that could not be opened when this page was made";
    set.rows = six_modes("", &Plate::blind);
    return set;
}

Set tapped() {
    Set set = blind();
    set.title = "Spruce plates after a tap test: modes that the fit did not use";
    set.short_title = "after a tap test";
    set.given += ". `vrid calibrate` fits E1, E2 and G12 to modes 1, 2 and 4";
    set.assumed += ". Beside the three, nu12, G13 and G23 may move; the readings cannot tell them";
    set.band = 3;
    set.why = "three constants, six modes: what is left is taper and curve of the grain, uneven "
              "thickness, the 0.5 Hz of a bin. 1.5 % on average over the plates, 3 % at worst";
    set.remark = "[examples/coupon-core-blank](../examples/coupon-core-blank) is the story of 2L";
    set.rows = tapped_modes();
    return set;
}

Set of_the_source() {
    Set set = blind();
    set.title = "Spruce plates, constants of the source";
    set.short_title = "constants of the source";
    set.given +=
        ". E1, E2, G12, nu12, density and thickness as the source fitted them to the whole "
        "response";
    set.assumed = "G13 0.62 and G23 0.028 GPa, the middle of the source's range over the plates";
    set.band = 0;
    set.why =
        "none: the constants were fitted to these very peaks, by other hands with another program";
    set.remark = "";
    set.rows = six_modes("-source", &Plate::constants_of_source);
    return set;
}

} // namespace

std::vector<Set> plates() {
    return {blind(), tapped(), of_the_source()};
}

} // namespace vrid::measured

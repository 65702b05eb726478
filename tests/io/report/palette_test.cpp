// The report's colours, read from its style sheet, as people with colour vision deficiencies see
// them.
#include <array>
#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>

#include <Eigen/Core>
#include <catch2/catch.hpp>

#include "io/report/report_style.hpp"

using Eigen::Matrix3d;
using Eigen::Vector3d;

namespace {

Matrix3d rows(const std::array<double, 9>& v) {
    Matrix3d m;
    m << v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8];
    return m;
}

// On linear RGB. G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, A physiologically-based model
// for simulation of color vision deficiency, IEEE Trans. Visualization and Computer Graphics 15(6),
// 2009, the authors' table of matrices at severity 1.0.
Matrix3d protan() {
    return rows({0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116,
                 1.051998});
}
Matrix3d deutan() {
    return rows({0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940,
                 0.968881});
}

// Linear RGB to XYZ under D65: IEC 61966-2-1 (sRGB), 1999.
Matrix3d to_xyz() {
    return rows({0.4124564, 0.3575761, 0.1804375, 0.2126729, 0.7151522, 0.0721750, 0.0193339,
                 0.1191920, 0.9503041});
}

/// "--c0:#0984c9" of the light or the dark part of the style, as linear RGB.
Vector3d colour(const std::string& name, bool dark) {
    const std::string style = vrid::report_style;
    const std::size_t part = dark ? style.find("prefers-color-scheme:dark") : 0;
    std::string digits = style.substr(style.find("--" + name + ":#", part) + name.size() + 4, 6);
    if (digits[3] == ';') { // #fff
        digits = {digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]};
    }
    Vector3d rgb;
    for (int i = 0; i < 3; ++i) {
        const double s =
            std::stoi(digits.substr(static_cast<std::size_t>(2 * i), 2), nullptr, 16) / 255.0;
        rgb(i) = s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
    }
    return rgb;
}

/// CIE L*a*b* (CIE 15, Colorimetry): distances are the CIE 1976 colour difference, of which about
/// 2.3 is just noticeable (M. Mahy et al., Color Res. Appl. 19, 1994).
Vector3d lab(const Vector3d& linear) {
    const Vector3d xyz =
        (to_xyz() * linear.cwiseMax(0).cwiseMin(1)).cwiseQuotient(to_xyz() * Vector3d::Ones());
    const Vector3d f = xyz.unaryExpr(
        [](double t) { return t > 0.008856 ? std::cbrt(t) : 7.787 * t + 16.0 / 116; });
    return {116 * f(1) - 16, 500 * (f(0) - f(1)), 200 * (f(1) - f(2))};
}

/// Ratio of luminances with the flare of WCAG 2.1.
double contrast(const Vector3d& a, const Vector3d& b) {
    const double first = (to_xyz() * a)(1) + 0.05;
    const double second = (to_xyz() * b)(1) + 0.05;
    return std::max(first, second) / std::min(first, second);
}

double least_difference(const std::vector<Vector3d>& colours, const Matrix3d& sight) {
    double least = 1e9;
    for (std::size_t i = 0; i < colours.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            least = std::min(least, (lab(sight * colours[i]) - lab(sight * colours[j])).norm());
        }
    }
    return least;
}

std::vector<Vector3d> series(char letter, int count, bool dark) {
    std::vector<Vector3d> all;
    for (int i = 0; i < count; ++i) {
        all.push_back(colour(std::string(1, letter) + std::to_string(i), dark));
    }
    return all;
}

} // namespace

TEST_CASE("the simulation keeps grey grey and makes pure red and green alike") {
    for (const Matrix3d& sight : {protan(), deutan()}) {
        CHECK((sight * Vector3d::Ones() - Vector3d::Ones()).norm() < 1e-5);
    }
    // Of equal lightness to a deuteranope: these two differ by more than 100 in usual vision.
    const Vector3d red(0.35, 0.02, 0.02);
    const Vector3d green(0.08, 0.14, 0.02);
    CHECK((lab(red) - lab(green)).norm() > 60);
    CHECK((lab(deutan() * red) - lab(deutan() * green)).norm() < 15);
}

TEST_CASE("lines and layers stay ten just noticeable differences apart in any colour vision") {
    for (const bool dark : {false, true}) {
        for (const Matrix3d& sight : {Matrix3d(Matrix3d::Identity()), protan(), deutan()}) {
            CAPTURE(dark, sight);
            CHECK(least_difference(series('c', 6, dark), sight) > 23);
            CHECK(least_difference(series('l', 10, dark), sight) > 23);
        }
    }
}

TEST_CASE("shades of the map rise evenly and the numbers on them can be read") {
    for (const bool dark : {false, true}) {
        const auto shades = series('m', 6, dark);
        const auto ink = series('v', 6, dark);
        for (std::size_t i = 0; i < shades.size(); ++i) {
            CAPTURE(dark, i);
            CHECK(contrast(shades[i], ink[i]) > 4.5); // WCAG 2.1, 1.4.3, text
            for (const Matrix3d& sight : {protan(), deutan()}) {
                if (i > 0) {
                    const double step = lab(sight * shades[i])(0) - lab(sight * shades[i - 1])(0);
                    CHECK((dark ? step : -step) > 3 * 2.3); // in lightness alone
                }
            }
        }
    }
}

TEST_CASE("lines stand out from the card and texts from card and paper") {
    for (const bool dark : {false, true}) {
        for (const Vector3d& line : series('c', 6, dark)) {
            CHECK(contrast(line, colour("card", dark)) > 3); // WCAG 2.1, 1.4.11, graphics
        }
        for (const Vector3d& layer : series('l', 10, dark)) { // areas with an outline of their own
            CHECK(contrast(layer, colour("board", dark)) > 1.4);
        }
        for (const char* text : {"ink", "soft", "warn", "accent"}) {
            CAPTURE(dark, text);
            CHECK(contrast(colour(text, dark), colour("card", dark)) > 4.5);
            CHECK(contrast(colour(text, dark), colour("paper", dark)) > 4.5);
        }
    }
}

TEST_CASE("no two lines of a chart have the same dashes") {
    const std::string style = vrid::report_style;
    std::vector<std::string> dashes;
    for (int i = 0; i < 6; ++i) {
        const std::size_t at = style.find(".C" + std::to_string(i) + "{stroke:");
        REQUIRE(at != std::string::npos);
        const std::string rule = style.substr(at, style.find('}', at) - at);
        const std::size_t dash = rule.find("stroke-dasharray:");
        dashes.push_back(dash == std::string::npos ? "" : rule.substr(dash));
    }
    for (std::size_t i = 0; i < dashes.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            CHECK(dashes[i] != dashes[j]);
        }
    }
}

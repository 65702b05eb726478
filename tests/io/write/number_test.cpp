#include "io/write/number.hpp"

#include <limits>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a value is rounded to the last digit of its error bar") {
    CHECK(text(BenchQuantity{12.8412, 0.0173, "N m/deg"}) == "12.841 +- 0.018 N m/deg");
    CHECK(text(BenchQuantity{12.8412, 0.0193, "N m/deg"}) == "12.841 +- 0.020 N m/deg");
    CHECK(text(BenchQuantity{12.8412, 0.02, "N m/deg"}) == "12.84 +- 0.02 N m/deg");
    CHECK(text(BenchQuantity{29.13, 0.036, "N/mm"}) == "29.13 +- 0.04 N/mm");
    CHECK(text(BenchQuantity{1570.4, 3.2, "mm"}) == "1570 +- 4 mm");
    CHECK(text(BenchQuantity{-0.004, 0.03, ""}) == "0.00 +- 0.03");
}

TEST_CASE("a printed error bar is never smaller than the true one") {
    for (const double error : {0.0301, 0.0999, 0.0100001, 3.0001, 0.00051}) {
        const RoundedNumber number = rounded(7.5, error);
        CHECK(std::stod(number.error) >= error);
        CHECK(std::stod(number.error) <= 2 * error);
    }
    CHECK(rounded(0.25, 0.020000000000000004).error == "0.02");
}

TEST_CASE("a tiny error bar shows no more than six digits") {
    CHECK(rounded(7.123456789, 1e-9).value == "7.12346");
    CHECK(rounded(7.123456789, 1e-9).error == "0.00001");
    CHECK(rounded(16.5432109, 3e-12).value == "16.5432");
}

TEST_CASE("a number without a bar has four significant digits and no sign of zero") {
    CHECK(text(BenchQuantity{8.4123, 0, "m"}) == "8.412 m");
    CHECK(significant(0.0123456, 3) == "0.0123");
    CHECK(significant(12345.6, 3) == "12300");
    CHECK(significant(9.9996, 4) == "10.00");
    CHECK(significant(0, 3) == "0.00");
    CHECK(fixed(-0.0001, 2) == "0.00");
    CHECK(fixed(-1.5, 1) == "-1.5");
    CHECK(fixed(std::numeric_limits<double>::infinity(), 1) == "inf");
    CHECK(fixed(std::numeric_limits<double>::quiet_NaN(), 1) == "nan");
}

TEST_CASE("bench units are those that a rig reads") {
    const BenchQuantity twist = to_bench({180.0, 1.8, Unit::twist_stiffness});
    CHECK(twist.value == Approx(3.14159265358979).epsilon(1e-14));
    CHECK(twist.error == Approx(0.0314159265358979).epsilon(1e-14));
    CHECK(twist.unit == "N m/deg");
    CHECK(to_bench({7500, 0, Unit::bending_stiffness}).value == Approx(7.5));
}

TEST_CASE("rounding to significant digits hides the last bits and nothing else") {
    CHECK(round_significant(0.1 + 0.2, 10) == 0.3);
    CHECK(round_significant(-1234567.891, 4) == -1235000);
    CHECK(round_significant(0, 5) == 0);
}

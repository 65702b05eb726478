// Names of numbers, one a kind: goals, limits and folders are keyed by them.
#include "io/write/number_name.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("every kind of number has its name, stations and travels in mm without noise") {
    using Kind = NumberId::Kind;
    const std::vector<std::pair<NumberId, std::string>> names{
        {{.kind = Kind::mass}, "mass"},
        {{.kind = Kind::sidecut_radius}, "sidecut_radius"},
        {{.kind = Kind::length}, "length"},
        {{.kind = Kind::area}, "area"},
        {{.kind = Kind::balance_x}, "balance_point.x"},
        {{.kind = Kind::balance_y}, "balance_point.y"},
        {{.kind = Kind::bench_case, .bench_case = "nose-twist"}, "nose-twist"},
        {{.kind = Kind::mode, .mode = 2}, "free-modes mode 2"},
        {{.kind = Kind::EI, .station = -0.27}, "EI@-270"},
        {{.kind = Kind::GJ, .station = 0.1 + 0.2}, "GJ@300"},
        {{.kind = Kind::thickness, .station = 0.0125}, "thickness@12.5"},
        {{.kind = Kind::edge, .edge_number = "loss_nose"}, "edge.loss_nose"},
        {{.kind = Kind::shape, .bench_case = "release", .station = 0.3, .shape_number = "camber"},
         "release.camber"},
        {{.kind = Kind::shape, .bench_case = "cold", .station = -0.3, .shape_number = "concavity"},
         "cold.concavity@-300"},
        {{.kind = Kind::bent,
          .bench_case = "centre-flex",
          .bent_number = "stiffness",
          .travel = 0.06},
         "centre-flex at 60 mm"},
        {{.kind = Kind::bent, .bench_case = "nose-flex", .bent_number = "force", .travel = 0.0605},
         "nose-flex at 60.5 mm.force"},
        {{.kind = Kind::bent,
          .bench_case = "stance-twist",
          .bent_number = "stiffness",
          .travel = 0.04},
         "stance-twist bent 40 mm"},
        {{.kind = Kind::strength, .bench_case = "nose-flex", .strength_number = "first"},
         "strength.nose-flex"},
        {{.kind = Kind::strength, .bench_case = "nose-flex", .strength_number = "breaks"},
         "strength.nose-flex.breaks"}};
    for (const auto& [number, name] : names) {
        CHECK(number_name(number) == name);
    }
}

TEST_CASE("numbers of a shape are told from others by how their names start") {
    for (const char* name : {"release.camber", "cold.twist", "mould.camber", "pressed.camber"}) {
        CHECK(names_a_shape(name));
    }
    for (const char* name : {"mass", "released", "edge.release.", "coldest", "balance_point.x"}) {
        CHECK_FALSE(names_a_shape(name));
    }
}

// The field files in the hands of another reader: meshio, in a process of its own.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using nlohmann::json;

namespace {

// What meshio finds in a file: cells, and of every field its components, least and largest value
// and how many are not numbers.
const char* const reader = R"(
import json, sys
import meshio, numpy
mesh = meshio.read(sys.argv[1])
found = {"points": len(mesh.points), "x": [float(mesh.points[:,0].min()), float(mesh.points[:,0].max())],
         "cells": [[block.type, len(block.data)] for block in mesh.cells], "fields": {}}
for name, values in mesh.point_data.items():
    values = numpy.asarray(values).reshape(len(values), -1)
    real = values[numpy.isfinite(values)]
    found["fields"][name] = {"components": values.shape[1], "nan": int(numpy.isnan(values).sum()),
        "min": float(real.min()) if real.size else 0, "max": float(real.max()) if real.size else 0,
        "square": float((real**2).mean()) if real.size else 0}
print(json.dumps(found))
)";

json read_by_meshio(const TemporaryFolder& folder, const std::string& file) {
    const std::string script = folder.file("read.py", reader);
    const std::string to = (folder.path() / "read.json").string();
    const std::string command =
        "/usr/bin/python3 " + script + " '" + file + "' > " + to + " 2> " + to + ".err";
    if (std::system(command.c_str()) != 0) {
        FAIL(file << ": " << content(to + ".err"));
    }
    return json::parse(content(to));
}

bool meshio_is_there() {
    return std::system("/usr/bin/python3 -c 'import meshio' 2> /dev/null") == 0;
}

} // namespace

TEST_CASE(
    "meshio reads the field files of a strength: index 1 at the failing load, stress of every "
    "ply, averaged and raw") {
    if (!meshio_is_there()) {
        WARN("python3-meshio is not installed: not tested");
        return;
    }
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    for (const bool linear : {false, true}) {
        std::vector<std::string> words{"strength", "examples/nh-157-biax/board.toml",
                                       "--case",   "nose-flex",
                                       "--degree", "2",
                                       "--out",    out};
        if (linear) {
            words.emplace_back("--linear");
        }
        REQUIRE(run_program(words).status == 0);
        const json all = json::parse(content(out + "/strength.json"));
        const json found = read_by_meshio(folder, out + "/strength-nose-flex.vtu");
        CAPTURE(linear);
        const json& fields = found["fields"];
        CHECK(found["cells"][0][1].get<std::size_t>() * (linear ? 1 : 4) > 400);
        CHECK(found["x"][1].get<double>() - found["x"][0].get<double>() > 1.4); // [m]
        double largest = 0;
        int plies = 0;
        for (const auto& [name, values] : fields.items()) {
            const bool raw = name.ends_with(" raw");
            if (name.starts_with("failure index ") && !raw) {
                largest = std::max(largest, values["max"].get<double>());
            }
            if (name.starts_with("stress 1 MPa ") && !raw) {
                ++plies;
                CHECK(fields.contains(name + " raw"));
                CHECK((name.ends_with(" top") || name.ends_with(" bottom")));
            }
        }
        CHECK(plies >= 8);
        CHECK(largest < 1.01);
        CHECK(largest > 0.8);
        const json& first = all["strength"]["nose-flex"]["first"];
        const json& lowest = fields["lowest load [N]"];
        CHECK(lowest["min"].get<double>() >= first["value"].get<double>() * 0.999);
        CHECK(lowest["min"].get<double>() < first["value"].get<double>() * 1.1);
        CHECK(fields["displacement [m]"]["components"] == 3);
    }
}

TEST_CASE("free-modes.vtu holds every mode's shape with 1 m where it moves most") {
    if (!meshio_is_there()) {
        WARN("python3-meshio is not installed: not tested");
        return;
    }
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"solve", "examples/coupon-sandwich/board.toml", "--case", "free-modes",
                         "--out", out})
                .status == 0);
    const json fields = read_by_meshio(folder, out + "/free-modes.vtu")["fields"];
    std::vector<double> squares;
    for (int mode = 1; mode <= 6; ++mode) {
        const std::string name = "mode " + std::to_string(mode) + " displacement [m]";
        CAPTURE(name);
        REQUIRE(fields.contains(name));
        CHECK(fields[name]["components"] == 3);
        CHECK(fields[name]["max"].get<double>() == Approx(1).epsilon(1e-3));
        squares.push_back(fields[name]["square"].get<double>());
    }
    std::sort(squares.begin(), squares.end());
    CHECK(std::unique(squares.begin(), squares.end()) == squares.end()); // shapes of their own
}

TEST_CASE("meshio reads the residual stress of a board out of the press under strength's names") {
    if (!meshio_is_there()) {
        WARN("python3-meshio is not installed: not tested");
        return;
    }
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    const std::string board = folder.file(
        "pressed.toml", content(std::string(source_dir) + "/examples/nh-157-querwind/board.toml") +
                            "\n[cure]\nstress_free_C = 85\n");
    REQUIRE(run_program({"solve", board, "--case", "release", "--case", "cold", "--degree", "2",
                         "--out", out})
                .status == 0);
    double before = 0;
    for (const char* name : {"release", "cold"}) {
        const json fields =
            read_by_meshio(folder, out + "/" + std::string(name) + ".vtu")["fields"];
        double largest = 0;
        for (const auto& [field, values] : fields.items()) {
            if (field.starts_with("stress 2 MPa ") && !field.ends_with(" raw")) {
                CHECK(fields.contains(field + " raw"));
                largest = std::max(largest, std::abs(values["max"].get<double>()));
            }
        }
        CAPTURE(name);
        CHECK(largest > 1.2 * before); // the colder, the more
        before = largest;
    }
    CHECK(before > 1);
}

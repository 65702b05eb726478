// The field files of a board on its edge, read back by VTK, against the results they are made of.
#include <array>
#include <cmath>
#include <filesystem>

#include <catch2/catch.hpp>

#include <vtkCell.h>
#include <vtkDataArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/write/edge_report.hpp"
#include "tests/degree.hpp"
#include "tests/places.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

namespace fs = std::filesystem;

template <class Reader> auto read_back(const fs::path& file) {
    vtkNew<Reader> reader;
    reader->SetFileName(file.c_str());
    reader->Update();
    return vtkSmartPointer(reader->GetOutput());
}

Eigen::Vector3d point_of(vtkDataSet& data, vtkIdType k) {
    return Eigen::Map<const Eigen::Vector3d>(data.GetPoint(k));
}

double value_of(vtkDataSet& data, const char* field, vtkIdType k, int component = 0) {
    vtkDataArray* const values = data.GetPointData()->GetArray(field);
    REQUIRE(values != nullptr);
    return values->GetComponent(k, component);
}

double number_of(const EdgeConditionResult& one, const std::string& name) {
    for (const NamedQuantity& number : one.numbers) {
        if (number.name == name) {
            return number.quantity.value;
        }
    }
    FAIL("no number " << name);
    return 0;
}

EdgeHold held(bool bent) {
    EdgeHold hold;
    hold.board = read_board(std::string(source_dir) + "/examples/nh-157-biax/board.toml",
                            load_material_library());
    EdgeOptions options;
    options.motion = true;
    options.degree = 2;
    options.max_size = 0.1;
    options.threads = 1;
    EdgeCondition condition{Side::right, 50 * degree, 900, 5e9, 0.4};
    condition.bent = bent;
    hold.result = run_edge(hold.board, {condition}, options);
    return hold;
}

} // namespace

TEST_CASE("the files of a board on its edge hold its line force, depth, angle and true places") {
    const fs::path folder = fs::temp_directory_path() / "vrid_edge_grid_test";
    for (const bool bent : {false, true}) {
        CAPTURE(bent);
        const EdgeHold hold = held(bent);
        const EdgeConditionResult& one = hold.result.conditions.front();
        REQUIRE(one.no_equilibrium.empty());
        write_edge(hold, nullptr, folder.string(), [] {});
        const auto edge = read_back<vtkXMLPolyDataReader>(folder / "edge-1.vtp");
        const EdgeCurve& curve = one.curve;
        REQUIRE(edge->GetNumberOfPoints() == curve.x.size());
        double most = 0;
        double deepest = 0;
        double force = 0;
        double moment = 0;
        for (vtkIdType k = 0; k < edge->GetNumberOfPoints(); ++k) {
            const Eigen::Vector3d wanted(curve.along(k), curve.y(k) + curve.v(k),
                                         curve.z0(k) + curve.w(k));
            CHECK((point_of(*edge, k) - wanted).norm() < 1e-9);
            const double q = value_of(*edge, "line force q [N/m]", k);
            CHECK(value_of(*edge, "local edging angle [rad]", k) ==
                  Approx(50 * degree - curve.loss(k)).epsilon(1e-6));
            deepest = std::max(deepest, value_of(*edge, "depth [m]", k));
            most = std::max(most, q);
            force += q * curve.ds(k);
            moment += q * curve.ds(k) * point_of(*edge, k).x();
        }
        CHECK(most == Approx(number_of(one, "peak")).epsilon(0.01));
        CHECK(deepest == Approx(number_of(one, "max_depth")).epsilon(1e-3));
        // the snow carries the rider, under the point that the feet's shares give
        CHECK(force * std::cos(50 * degree) == Approx(900).epsilon(1e-3));
        const Stance& stance = *hold.board.stance;
        CHECK(moment / force == Approx(0.4 * stance.front() + 0.6 * stance.rear()).margin(5e-4));

        const auto board = read_back<vtkXMLUnstructuredGridReader>(folder / "edge-1.vtu");
        const int p = hold.result.numbering.degree;
        const auto rest = rest_shape(hold.board);
        REQUIRE(rest);
        REQUIRE(board->GetNumberOfCells() == static_cast<vtkIdType>(hold.result.mesh.quads.size()));
        for (std::size_t quad = 0; quad < hold.result.mesh.quads.size(); ++quad) {
            const auto& nodes = hold.result.numbering.quad_nodes[quad];
            const std::array<int, 4> corners{0, p, (p + 1) * (p + 1) - 1, p * (p + 1)};
            for (std::size_t c = 0; c < 4; ++c) { // a cell's first points are its corners
                const vtkIdType k =
                    board->GetCell(static_cast<vtkIdType>(quad))->GetPointId(static_cast<int>(c));
                const int node = nodes[static_cast<std::size_t>(corners[c])];
                const Eigen::Vector3d moved = one.motion.segment<3>(5 * node);
                const Eigen::Vector2d at =
                    hold.result.mesh
                        .vertices[static_cast<std::size_t>(hold.result.mesh.quads[quad][c])];
                const Eigen::Vector3d stood(bent ? rest->place(at.x()) : at.x(), at.y(),
                                            rest->z(at.x()));
                CHECK((point_of(*board, k) - stood - moved).norm() < 1e-9);
                for (int i = 0; i < 3; ++i) {
                    CHECK(value_of(*board, "displacement [m]", k, i) ==
                          Approx(moved(i)).margin(1e-7));
                }
            }
        }
        CHECK((board->GetPointData()->GetArray("moment [N m/m]") != nullptr) == !bent);
    }
    fs::remove_all(folder);
}

#include "io/write/vtu.hpp"

#include <catch2/catch.hpp>

#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

#include "io/write/field_files.hpp"
#include "tests/io/write/solved_example.hpp"

using namespace vrid;

namespace {

vtkSmartPointer<vtkUnstructuredGrid> read_back(const std::string& text) {
    vtkNew<vtkXMLUnstructuredGridReader> reader;
    reader->ReadFromInputStringOn();
    reader->SetInputString(text);
    reader->Update();
    return reader->GetOutput();
}

/// Two curved quads of n x n points each: x = s + 0.1 t^2, y = t, s in [e, e + 1], t in [0, 1].
QuadGrid curved_grid(int n) {
    QuadGrid grid;
    grid.n = n;
    grid.points.resize(3, 2 * n * n);
    Eigen::MatrixXd height(1, 2 * n * n);
    for (int e = 0; e < 2; ++e) {
        for (int j = 0; j < n; ++j) {
            for (int i = 0; i < n; ++i) {
                const double s = e + i / (n - 1.0);
                const double t = j / (n - 1.0);
                const int k = e * n * n + j * n + i;
                grid.points.col(k) << s + 0.1 * t * t, t, 0;
                height(0, k) = s * t;
            }
        }
    }
    grid.fields = {{"height [m]", {}, height}};
    grid.marks = {{"layer set", {7, 8}}};
    grid.notes = {{"layer sets", {"a", "b"}}};
    return grid;
}

} // namespace

TEST_CASE("a Lagrange cell interpolates position and field at its middle") {
    for (const int n : {3, 4, 5, 7}) {
        const auto grid = read_back(vtu_text(curved_grid(n), false));
        REQUIRE(grid->GetNumberOfCells() == 2);
        REQUIRE(grid->GetNumberOfPoints() == 2 * n * n);
        for (vtkIdType e = 0; e < 2; ++e) {
            CHECK(grid->GetCellType(e) == VTK_LAGRANGE_QUADRILATERAL);
            vtkCell* cell = grid->GetCell(e);
            // Not the middle: (0.25, 0.75) tells a swap of xi and eta.
            double place[3] = {0.25, 0.75, 0};
            double position[3] = {0, 0, 0};
            std::vector<double> weights(static_cast<std::size_t>(n) * n);
            int sub = 0;
            cell->EvaluateLocation(sub, place, position, weights.data());
            const double s = static_cast<double>(e) + 0.25;
            CHECK(position[0] == Approx(s + 0.1 * 0.75 * 0.75).epsilon(1e-12));
            CHECK(position[1] == Approx(0.75).epsilon(1e-12));
            vtkDataArray* height = grid->GetPointData()->GetArray("height [m]");
            double value = 0;
            for (vtkIdType k = 0; k < cell->GetNumberOfPoints(); ++k) {
                value +=
                    weights[static_cast<std::size_t>(k)] * height->GetTuple1(cell->GetPointId(k));
            }
            CHECK(value == Approx(s * 0.75).epsilon(1e-6)); // single precision
        }
    }
}

TEST_CASE("linear output splits each quad into four-node cells that turn the same way") {
    const int n = 4;
    const auto grid = read_back(vtu_text(curved_grid(n), true));
    REQUIRE(grid->GetNumberOfCells() == 18);
    double area = 0;
    for (vtkIdType e = 0; e < 18; ++e) {
        REQUIRE(grid->GetCellType(e) == VTK_QUAD);
        double a[3];
        double b[3];
        double c[3];
        double d[3];
        vtkCell* cell = grid->GetCell(e);
        double* const corner[4] = {a, b, c, d};
        for (int k = 0; k < 4; ++k) {
            grid->GetPoint(cell->GetPointId(k), corner[k]);
        }
        const double part = ((c[0] - a[0]) * (d[1] - b[1]) - (d[0] - b[0]) * (c[1] - a[1])) / 2;
        CHECK(part > 0);
        area += part;
    }
    CHECK(area == Approx(2.0));
    CHECK(grid->GetCellData()->GetArray("layer set")->GetTuple1(8) == 7);
    CHECK(grid->GetCellData()->GetArray("layer set")->GetTuple1(9) == 8);
}

TEST_CASE("texts that belong to the whole file are kept, as names of arrays with their number") {
    const auto grid = read_back(vtu_text(curved_grid(3), false));
    vtkDataArray* second = grid->GetFieldData()->GetArray("layer sets 1: b");
    REQUIRE(second != nullptr);
    CHECK(second->GetTuple1(0) == 1);
    CHECK(grid->GetFieldData()->GetArray("layer sets 0: a") != nullptr);
}

TEST_CASE("a case's file holds displacement, twist and moments of the case at one degree") {
    const SolvedBoard solved = tests::solved_example();
    const auto grid = read_back(vtu_text(case_grid(solved, solved.study.cases[1]), false));
    CHECK(grid->GetNumberOfCells() == 2);
    CHECK(grid->GetNumberOfPoints() == 32);
    const double degree = 3.14159265358979 / 180;
    vtkDataArray* displacement = grid->GetPointData()->GetArray("displacement [m]");
    vtkDataArray* twist = grid->GetPointData()->GetArray("twist [rad/m]");
    vtkDataArray* moment = grid->GetPointData()->GetArray("moment [N m/m]");
    REQUIRE(displacement != nullptr);
    REQUIRE(twist != nullptr);
    REQUIRE(moment != nullptr);
    CHECK(displacement->GetNumberOfComponents() == 3);
    CHECK(std::string(displacement->GetComponentName(2)) == "w");
    const double D66 = 80e9 * 8e-9 / 3; // G t^3 / 3, about z = 0
    for (vtkIdType k = 0; k < grid->GetNumberOfPoints(); ++k) {
        double at[3];
        grid->GetPoint(k, at);
        CHECK(displacement->GetComponent(k, 2) == Approx(degree * at[0] * at[1]).margin(1e-9));
        CHECK(twist->GetTuple1(k) == Approx(degree).epsilon(1e-5));
        CHECK(moment->GetComponent(k, 2) == Approx(-2 * D66 * degree).epsilon(1e-5));
    }
}

TEST_CASE("board.vtu holds the section data that the board file asked for") {
    const SolvedBoard solved = tests::solved_example();
    const auto grid = read_back(vtu_text(board_grid(solved), false));
    vtkDataArray* D = grid->GetPointData()->GetArray("bending stiffness D [N m]");
    REQUIRE(D != nullptr);
    CHECK(grid->GetPointData()->GetArray("thickness [m]")->GetTuple1(0) == Approx(2e-3));
    // About the running surface z = 0: E / (1 - nu^2) t^3 / 3.
    CHECK(D->GetComponent(5, 0) == Approx(200e9 / (1 - 0.0625) * 8e-9 / 3).epsilon(1e-5));
    CHECK(std::string(D->GetComponentName(5)) == "66");
}

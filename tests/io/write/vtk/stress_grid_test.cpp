// Field files of strength and modes in the hands of VTK's own reader.

#include <catch2/catch.hpp>

#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

#include "io/write/field_files.hpp"

using namespace vrid;

namespace {

vtkSmartPointer<vtkUnstructuredGrid> stress_read_back(const std::string& text) {
    vtkNew<vtkXMLUnstructuredGridReader> reader;
    reader->ReadFromInputStringOn();
    reader->SetInputString(text);
    reader->Update();
    return reader->GetOutput();
}

// A strip of 300 x 40 x 4 mm with a name that XML must write in another way.
Board strip() {
    Board board;
    board.name = "strip";
    board.planform = rectangle_planform(0.3, 0.04);
    Material material;
    material.name = "sheet";
    material.isotropic = true;
    material.E1 = material.E2 = 70e9;
    material.nu12 = 0.3;
    material.G12 = material.G13 = material.G23 = 70e9 / 2.6;
    material.density = 2700;
    material.strengths.Xt = material.strengths.Xc = 200e6;
    board.materials["sheet"] = material;
    Layer layer;
    layer.name = "a<b & \"c\"";
    layer.material = "sheet";
    layer.thickness = 4e-3;
    board.layers = {layer};
    return board;
}

// Whether the file says so of itself.
bool says(vtkUnstructuredGrid& grid, const std::string& words) {
    return grid.GetFieldData()->GetArray(words.c_str()) != nullptr;
}

} // namespace

TEST_CASE("VTK reads stress, index and mode by ply, and what the codes mean") {
    BoardStrength strength{strip(), {}};
    StrengthOptions options;
    options.threads = 1;
    options.cases = {"centre-flex"};
    strength.result = run_strength(strength.board, options);
    StrengthFields fields(strength.board, strength.result, plotted_points(strength.result.study));
    const auto grid = stress_read_back(vtu_text(strength_grid(strength, fields, 0), false));
    vtkPointData& data = *grid->GetPointData();
    for (const char* name : {"stress 1 MPa a<b & \"c\" top", "stress 12 MPa a<b & \"c\" bottom raw",
                             "stress 13 MPa a<b & \"c\"", "lowest load [N]", "lowest load mode"}) {
        CAPTURE(name);
        REQUIRE(data.GetArray(name) != nullptr);
        CHECK(data.GetArray(name)->GetNumberOfTuples() == grid->GetNumberOfPoints());
    }
    double range[2];
    data.GetArray("failure index a<b & \"c\"")->GetRange(range);
    CHECK(range[1] == Approx(1).epsilon(0.02));
    data.GetArray("stress 1 MPa a<b & \"c\" top")->GetRange(range);
    // von Mises with something across: the stress along passes the strength by a little
    CHECK(std::max(std::abs(range[0]), range[1]) == Approx(200).epsilon(0.15));
    const int yields = mode_code(FailureMode::yield);
    CHECK(says(*grid, "failure mode " + std::to_string(yields) + ": yield"));
    vtkDataArray* index = data.GetArray("failure index a<b & \"c\"");
    for (vtkIdType k = 0; k < index->GetNumberOfTuples(); ++k) {
        if (index->GetTuple1(k) > 0.5) { // far from the supports, where it is sheared
            CHECK(data.GetArray("failure mode a<b & \"c\"")->GetTuple1(k) == yields);
        }
    }
    CHECK(says(*grid, "layer 1: a<b & \"c\""));
    CHECK(says(*grid, "caution: " + strength_caution()));
    CHECK(says(*grid, "case: centre-flex"));
}

TEST_CASE("VTK reads the shapes of all modes from one file, with their frequencies") {
    SolvedBoard solved;
    solved.board = strip();
    StudyOptions options;
    options.threads = 1;
    options.cases = {"free-modes"};
    options.keep_models = true;
    solved.study = run_study(solved.board, options);
    const auto grid = stress_read_back(vtu_text(case_grid(solved, solved.study.cases[0]), false));
    for (int mode = 1; mode <= 6; ++mode) {
        const std::string name = "mode " + std::to_string(mode) + " displacement [m]";
        CAPTURE(name);
        vtkDataArray* shape = grid->GetPointData()->GetArray(name.c_str());
        REQUIRE(shape != nullptr);
        double range[2];
        double most = 0;
        for (int k = 0; k < 3; ++k) {
            shape->GetRange(range, k);
            most = std::max(most, range[1]);
        }
        CHECK(most == Approx(1).epsilon(1e-3));
    }
    int told = 0;
    for (int k = 0; k < grid->GetFieldData()->GetNumberOfArrays(); ++k) {
        told +=
            std::string(grid->GetFieldData()->GetArrayName(k)).starts_with("frequencies ") ? 1 : 0;
    }
    CHECK(told == 6);
}

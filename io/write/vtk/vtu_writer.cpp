#include "io/write/vtk_module.hpp"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkDoubleArray.h>
#include <vtkFieldData.h>
#include <vtkFloatArray.h>
#include <vtkHigherOrderQuadrilateral.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include "io/write/markup_text.hpp"
#include "io/write/vtk/vtk_text.hpp"

namespace vrid {
namespace {

void add_points(vtkUnstructuredGrid& target, const QuadGrid& grid) {
    vtkNew<vtkDoubleArray> values;
    values->SetNumberOfComponents(3);
    values->SetNumberOfTuples(grid.points.cols());
    for (Eigen::Index k = 0; k < grid.points.cols(); ++k) {
        values->SetTuple(k, grid.points.col(k).data());
    }
    vtkNew<vtkPoints> points;
    points->SetData(values);
    target.SetPoints(points);
}

/// One cell of all n^2 points; VTK wants corners first, then sides, then the inside.
void add_lagrange_cells(vtkUnstructuredGrid& target, const QuadGrid& grid) {
    const int n = grid.n;
    const std::array<int, 2> order{n - 1, n - 1};
    std::vector<int> local(static_cast<std::size_t>(n) * n); // by VTK's place: ours
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            const int place = vtkHigherOrderQuadrilateral::PointIndexFromIJK(i, j, order.data());
            local[static_cast<std::size_t>(place)] = j * n + i;
        }
    }
    std::vector<vtkIdType> cell(local.size());
    const auto points = static_cast<std::size_t>(grid.points.cols());
    for (std::size_t first = 0; first < points; first += local.size()) {
        for (std::size_t k = 0; k < local.size(); ++k) {
            cell[k] = static_cast<vtkIdType>(first) + local[k];
        }
        target.InsertNextCell(VTK_LAGRANGE_QUADRILATERAL, static_cast<vtkIdType>(cell.size()),
                              cell.data());
    }
}

void add_linear_cells(vtkUnstructuredGrid& target, const QuadGrid& grid) {
    const vtkIdType n = grid.n;
    for (vtkIdType first = 0; first < grid.points.cols(); first += n * n) {
        for (vtkIdType j = 0; j + 1 < n; ++j) {
            for (vtkIdType i = 0; i + 1 < n; ++i) {
                const vtkIdType at = first + j * n + i;
                const std::array<vtkIdType, 4> cell{at, at + 1, at + 1 + n, at + n};
                target.InsertNextCell(VTK_QUAD, 4, cell.data());
            }
        }
    }
}

void add_fields(vtkUnstructuredGrid& target, const QuadGrid& grid) {
    for (const PointField& field : grid.fields) {
        vtkNew<vtkFloatArray> values;
        values->SetName(escaped(field.name).c_str());
        values->SetNumberOfComponents(static_cast<int>(field.values.rows()));
        for (std::size_t k = 0; k < field.components.size(); ++k) {
            values->SetComponentName(static_cast<vtkIdType>(k), field.components[k].c_str());
        }
        values->SetNumberOfTuples(field.values.cols());
        for (Eigen::Index k = 0; k < field.values.cols(); ++k) {
            values->SetTuple(k, field.values.col(k).data());
        }
        target.GetPointData()->AddArray(values);
    }
}

void add_marks(vtkUnstructuredGrid& target, const QuadGrid& grid, vtkIdType cells_per_quad) {
    for (const auto& [name, marks] : grid.marks) {
        vtkNew<vtkIntArray> values;
        values->SetName(name.c_str());
        for (const int mark : marks) {
            for (vtkIdType k = 0; k < cells_per_quad; ++k) {
                values->InsertNextValue(mark);
            }
        }
        target.GetCellData()->AddArray(values);
    }
}

// The text stands in the name of an array: not every library reads arrays of text.
void add_notes(vtkUnstructuredGrid& target, const QuadGrid& grid) {
    for (const auto& [name, lines] : grid.notes) {
        for (std::size_t k = 0; k < lines.size(); ++k) {
            const std::string number = lines.size() > 1 ? " " + std::to_string(k) : "";
            vtkNew<vtkIntArray> value;
            value->SetName(escaped(name + number + ": " + lines[k]).c_str());
            value->InsertNextValue(static_cast<int>(k));
            target.GetFieldData()->AddArray(value);
        }
    }
}

} // namespace
} // namespace vrid

void vrid_write_vtu(const vrid::QuadGrid& grid, bool linear, std::string& text) {
    vtkNew<vtkUnstructuredGrid> target;
    vrid::add_points(*target, grid);
    // Degree 1 has no need of a Lagrange cell, and every viewer knows the plain one.
    const bool plain = linear || grid.n == 2;
    const vtkIdType cells_per_quad = plain ? static_cast<vtkIdType>(grid.n - 1) * (grid.n - 1) : 1;
    const vtkIdType points_per_quad = static_cast<vtkIdType>(grid.n) * grid.n;
    target->Allocate(cells_per_quad * grid.points.cols() / points_per_quad);
    if (plain) {
        vrid::add_linear_cells(*target, grid);
    } else {
        vrid::add_lagrange_cells(*target, grid);
    }
    vrid::add_fields(*target, grid);
    vrid::add_marks(*target, grid, cells_per_quad);
    vrid::add_notes(*target, grid);
    text = vrid::vtk_text<vtkXMLUnstructuredGridWriter>(target.Get(), "vtu");
}

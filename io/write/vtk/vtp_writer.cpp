#include "io/write/vtk_module.hpp"

#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkFloatArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataWriter.h>

#include "io/write/vtk/vtk_text.hpp"

void vrid_write_vtp(const Eigen::Matrix3Xd& points, const std::vector<vrid::PointField>& fields,
                    std::string& text) {
    vtkNew<vtkDoubleArray> places;
    places->SetNumberOfComponents(3);
    places->SetNumberOfTuples(points.cols());
    vtkNew<vtkCellArray> line;
    line->InsertNextCell(static_cast<int>(points.cols()));
    for (Eigen::Index k = 0; k < points.cols(); ++k) {
        places->SetTuple(k, points.col(k).data());
        line->InsertCellPoint(k);
    }
    vtkNew<vtkPoints> all;
    all->SetData(places);
    vtkNew<vtkPolyData> target;
    target->SetPoints(all);
    target->SetLines(line);
    for (const vrid::PointField& field : fields) {
        vtkNew<vtkFloatArray> values;
        values->SetName(field.name.c_str());
        values->SetNumberOfComponents(static_cast<int>(field.values.rows()));
        values->SetNumberOfTuples(field.values.cols());
        for (Eigen::Index k = 0; k < field.values.cols(); ++k) {
            values->SetTuple(k, field.values.col(k).data());
        }
        target->GetPointData()->AddArray(values);
    }
    text = vrid::vtk_text<vtkXMLPolyDataWriter>(target.Get(), "vtp");
}

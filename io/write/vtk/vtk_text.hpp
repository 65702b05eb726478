#pragma once

#include <string>

#include <vtkNew.h>

#include "mesh/board/error.hpp"

namespace vrid {

/// A data set as the text of its VTK XML file: encoded arrays, zlib level 1. Written to memory, since
/// VTK's own file writing may report success on a full disk. \throws OutputError("format") if VTK
/// fails.
template <class Writer, class DataSet>
std::string vtk_text(DataSet* data, const std::string& format) {
    vtkNew<Writer> writer;
    writer->SetInputData(data);
    writer->WriteToOutputStringOn();
    writer->SetDataModeToBinary(); // arrays in place: not every library reads appended ones
    writer->SetCompressorTypeToZLib();
    writer->SetCompressionLevel(1);
    if (writer->Write() != 1) {
        throw OutputError(format, "VTK could not write it");
    }
    return writer->GetOutputString();
}

} // namespace vrid

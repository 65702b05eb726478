#include "io/write/vtk_module.hpp"

#include <array>
#include <filesystem>

#include <dlfcn.h>

#include "io/write/vtu.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

struct VtkModule {
    decltype(&vrid_write_vtu) write_vtu;
    decltype(&vrid_write_vtp) write_vtp;
};

// Beside the program in the build folder or above it (tests), or where it is installed.
fs::path module_path() {
    std::error_code unknown;
    const fs::path folder = fs::read_symlink("/proc/self/exe", unknown).parent_path();
    const std::array<fs::path, 3> places{fs::path(VRID_MODULES), ".", ".."};
    for (const fs::path& place : places) {
        const fs::path path = folder / place / VRID_VTK_MODULE;
        if (fs::exists(path, unknown)) {
            return path;
        }
    }
    throw OutputError((folder / places[0] / VRID_VTK_MODULE).lexically_normal().string(),
                      "the module that writes VTK files is not there");
}

template <class Function>
void find(void* module, const fs::path& path, Function& function, const char* name) {
    void* const found = dlsym(module, name);
    if (found == nullptr) {
        throw OutputError(path.string(), dlerror());
    }
    function = reinterpret_cast<Function>(found); // what dlsym is for
}

VtkModule opened() {
    const fs::path path = module_path();
    void* const module = dlopen(path.c_str(), RTLD_NOW | RTLD_LOCAL);
    if (module == nullptr) {
        throw OutputError(path.string(), dlerror());
    }
    VtkModule functions{};
    find(module, path, functions.write_vtu, "vrid_write_vtu");
    find(module, path, functions.write_vtp, "vrid_write_vtp");
    return functions;
}

const VtkModule& vtk_module() {
    static const VtkModule module = opened(); // kept to the end of the process
    return module;
}

} // namespace

std::string vtu_text(const QuadGrid& grid, bool linear) {
    std::string text;
    vtk_module().write_vtu(grid, linear, text);
    return text;
}

std::string vtp_text(const Eigen::Matrix3Xd& points, const std::vector<PointField>& fields) {
    std::string text;
    vtk_module().write_vtp(points, fields, text);
    return text;
}

} // namespace vrid

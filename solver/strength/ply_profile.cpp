#include "solver/strength/ply_profile.hpp"

namespace vrid {

namespace {

ProfiledStress whole_stress(const PointLaminate& point, std::size_t i, const PointLoad& load,
                            const PointResidual& before) {
    const JudgedPly& ply = *point.plies[i];
    ProfiledStress stress;
    for (const int end : {0, 1}) {
        const double z = point.z[i + static_cast<std::size_t>(end)];
        stress.in_plane.col(end) = ply_stress(ply, load.e, load.k, z);
        if (!before.free.empty()) {
            stress.in_plane.col(end) +=
                before.share(i) * ply_stress(ply, before.e, before.k, z, before.free[i]);
        }
    }
    for (const int k : {0, 1, 2}) {
        stress.shear.col(k) = ply_shear(
            ply, point.flow[i].at(point.laminae[i].thickness * k / 2).cwiseProduct(load.Q));
    }
    return stress;
}

} // namespace

std::vector<PlyProfile> ply_profiles(const JudgedLayup& judged, const PointLaminate& point,
                                     const PointLoad& load, const PointResidual& before) {
    std::vector<PlyProfile> all;
    for (std::size_t i = 0; i < point.plies.size(); ++i) {
        const JudgedPly& ply = *point.plies[i];
        PlyProfile one{judged.layers[static_cast<std::size_t>(ply.layer)],
                       ply.number,
                       ply.angle,
                       point.z[i],
                       point.z[i + 1],
                       whole_stress(point, i, load, before),
                       {}};
        for (const JudgedPart& part : ply.parts) {
            one.parts.push_back({part.material,
                                 part.strength,
                                 {part.share * one.stress.in_plane,
                                  part.shear_share.asDiagonal() * one.stress.shear}});
        }
        all.push_back(one);
    }
    return all;
}

} // namespace vrid

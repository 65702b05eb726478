#include "solver/response/fields.hpp"
#include "solver/element/director_shell.hpp"

#include "solver/laminate/layup.hpp"
#include "solver/system/model.hpp"

namespace vrid {

namespace {

Eigen::VectorXd even_points(int n) {
    return Eigen::VectorXd::LinSpaced(n, -1, 1);
}

// Stack at the middle of a quad: points on its sides may belong to a neighbour's.
int quad_stack(const Mesh& mesh, int quad, SectionCache& sections) {
    const Eigen::VectorXd middle = Eigen::VectorXd::Zero(1);
    return sections.stack_index(quad_points(mesh, quad, geometry_to_points(mesh, middle)).col(0));
}

PlateStiffness plate_stiffness(const Section<double>& s) {
    return {s.A, s.B, s.D, s.S};
}

std::string stack_text(const Layup<double>& layup, const StackKey& key) {
    std::string text;
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        if (key[i] != 0) {
            text += (text.empty() ? "" : " | ") + layup.items[i].name;
        }
    }
    return text;
}

} // namespace

MotionSample sample_motion(const Board& board, const StudyResult& study, const CaseResult& result,
                           int n) {
    // a cooled board shows what creeping leaves of its stiffness, and holds its free strains back
    const Layup<double> layup =
        make_layup<double>(board, {}, result.cooled && creeps(board) ? Pace::slow : Pace::quick);
    SectionCache sections(layup);
    const Mesh& mesh = study.mesh;
    const int p = study.numbering.degree;
    // The element's tables at even points instead of Gauss points.
    const ReferenceElement reference = reference_element(p, even_points(n));
    const Eigen::MatrixXd to_points = geometry_to_points(mesh, even_points(n));
    const Index per_quad = Index(n) * n;
    const auto count = static_cast<Index>(mesh.quads.size()) * per_quad;
    MotionSample sample;
    sample.n = n;
    sample.position.resize(2, count);
    sample.motion.resize(5, count);
    sample.strain.resize(8, count);
    sample.resultant.resize(8, count);
    for (int quad = 0; quad < static_cast<int>(mesh.quads.size()); ++quad) {
        const std::vector<int>& nodes = study.numbering.quad_nodes[static_cast<std::size_t>(quad)];
        Eigen::Matrix2Xd X(2, static_cast<Index>(nodes.size()));
        Eigen::VectorXd u(unknowns_per_node * static_cast<Index>(nodes.size()));
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            X.col(static_cast<Index>(i)) = study.numbering.position.col(nodes[i]);
            u.segment<5>(5 * static_cast<Index>(i)) =
                result.motion.segment<5>(5 * static_cast<Index>(nodes[i]));
        }
        const ElementTables tables = element_tables(reference, X, study.rest.get());
        const Eigen::Matrix2Xd position = quad_points(mesh, quad, to_points);
        const int stack = quad_stack(mesh, quad, sections);
        std::vector<PlateStiffness> stiffness;
        Eigen::Matrix<double, 8, Eigen::Dynamic> held = Eigen::MatrixXd::Zero(8, per_quad);
        for (Index c = 0; c < per_quad; ++c) {
            const Section<double>& section =
                sections.section(stack, Eigen::Vector2d(position.col(c)));
            stiffness.push_back(plate_stiffness(section));
            if (result.cooled) {
                held.col(c).segment<3>(0) = section.N0 + result.cooled->celsius * section.NT;
                held.col(c).segment<3>(3) = section.M0 + result.cooled->celsius * section.MT;
            }
        }
        const Index first = quad * per_quad;
        sample.position.middleCols(first, per_quad) = position;
        sample.motion.middleCols(first, per_quad) =
            Eigen::Map<const Eigen::MatrixXd>(u.data(), 5, X.cols()) * reference.N.transpose();
        const auto strain = element_strains(reference, tables, u);
        sample.strain.middleCols(first, per_quad) = strain;
        sample.resultant.middleCols(first, per_quad) = element_resultants(stiffness, strain) - held;
    }
    return sample;
}

SectionSample sample_sections(const Board& board, const Mesh& mesh, int n) {
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    const Eigen::MatrixXd to_points = geometry_to_points(mesh, even_points(n));
    const Index per_quad = Index(n) * n;
    const auto count = static_cast<Index>(mesh.quads.size()) * per_quad;
    SectionSample sample;
    sample.n = n;
    sample.position.resize(2, count);
    for (auto* values : {&sample.thickness, &sample.core_thickness, &sample.mass_per_area}) {
        values->resize(count);
    }
    for (auto* values : {&sample.A, &sample.B, &sample.D}) {
        values->resize(6, count);
    }
    sample.S.resize(3, count);
    const auto upper = [](const Eigen::Matrix3d& m) {
        return Eigen::Matrix<double, 6, 1>{m(0, 0), m(0, 1), m(0, 2), m(1, 1), m(1, 2), m(2, 2)};
    };
    for (int quad = 0; quad < static_cast<int>(mesh.quads.size()); ++quad) {
        const int stack = quad_stack(mesh, quad, sections);
        sample.stack.push_back(stack);
        const Eigen::Matrix2Xd position = quad_points(mesh, quad, to_points);
        sample.position.middleCols(quad * per_quad, per_quad) = position;
        for (Index c = 0; c < per_quad; ++c) {
            const Index at = quad * per_quad + c;
            const Section<double>& s = sections.section(stack, Eigen::Vector2d(position.col(c)));
            sample.thickness(at) = s.thickness;
            sample.core_thickness(at) = core_thickness(layup, Eigen::Vector2d(position.col(c)));
            sample.mass_per_area(at) = s.I0;
            sample.A.col(at) = upper(s.A);
            sample.B.col(at) = upper(s.B);
            sample.D.col(at) = upper(s.D);
            sample.S.col(at) << s.S(0, 0), s.S(0, 1), s.S(1, 1);
        }
    }
    for (const StackKey& key : sections.stacks()) {
        sample.stack_text.push_back(stack_text(layup, key));
    }
    return sample;
}

} // namespace vrid

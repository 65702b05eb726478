#include <algorithm>
#include <cctype>
#include <exception>
#include <filesystem>
#include <sstream>

#include "io/batch/job.hpp"
#include "io/batch/kept_meshes.hpp"
#include "io/read/content_hash.hpp"
#include "io/read/read_board.hpp"
#include "io/toml/read_text.hpp"
#include "io/write/caution.hpp"
#include "mesh/mesh_lines.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

/// A name that any file system takes: letters, digits and single dashes.
std::string plain_name(const std::string& text) {
    std::string plain;
    for (const char c : text) {
        if (std::isalnum(static_cast<unsigned char>(c)) != 0 &&
            static_cast<unsigned char>(c) < 128) {
            plain += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        } else if (!plain.empty() && plain.back() != '-') {
            plain += '-';
        }
    }
    constexpr std::size_t longest = 40;
    plain = plain.substr(0, longest);
    while (plain.ends_with('-')) {
        plain.pop_back();
    }
    return plain.empty() ? "board" : plain;
}

std::string settings_text(const Suite& suite, const StudyOptions& options) {
    std::ostringstream text;
    text.precision(17);
    text << numerics_version << " " << options.degree << " " << options.max_size;
    text << (options.flat ? " flat" : "");
    for (const double travel : options.bend) {
        text << " bend " << travel;
    }
    for (const std::string& name : options.cases) {
        text << " " << name;
    }
    text << (suite.strength ? " strength" : "");
    for (const EdgeCondition& one : suite.edge) {
        text << " edge " << one.tilt << " " << one.force << " " << one.hardness
             << (one.bent ? " bent" : "");
    }
    return text.str();
}

/// What all jobs of a plan are made from.
struct Planning {
    const Suite& suite;
    const StudyOptions& options;
    const MaterialLibrary& library;
    std::string settings; // of all jobs, as text
    bool strict = false;
};

void name_job(Job& job, const Planning& planning, const std::string& content) {
    job.key = content_hash({content, job.file, job.variant, planning.settings});
    const std::string name = job.variant.empty() ? job.board : job.board + " " + job.variant;
    constexpr std::size_t shown = 16;
    job.folder = "jobs/" + plain_name(name) + "-" + job.key.substr(0, shown);
}

Job failed_job(Job job, const Planning& planning, const std::exception& error) {
    job.error = error.what();
    name_job(job, planning, job.error);
    return job;
}

std::string mesh_texts(const Board& board, bool on_edge, const StudyOptions& options) {
    const std::string text = mesh_text(board, study_mesh_options(board, options));
    return on_edge ? text + mesh_text(board, edge_mesh_options(board, {options})) : text;
}

/// The board's mesh is that of the board as drawn, whatever a variant does to its section; one that
/// moves lines has a mesh of its own.
Job variant_job(const Job& bare, const NamedBoard& read, const Variant& variant,
                const Planning& planning) {
    Job job = bare;
    job.variant = variant.name;
    job.resolved = read.board;
    for (const auto& [name, limit] : planning.suite.limits) {
        job.resolved.limits[name] = limit;
    }
    job.with_strength =
        planning.suite.strength || std::ranges::any_of(job.resolved.limits, [](const auto& limit) {
            return limit.first.starts_with("strength.");
        });
    job.changes = value_changes(read.board, variant);
    apply_changes(job.resolved, variant.changes, read.named);
    if (mesh_lines(job.resolved) != mesh_lines(*job.drawn)) {
        job.drawn = std::make_shared<const Board>(job.resolved);
        job.mesh = mesh_texts(job.resolved, job.on_edge, planning.options);
    }
    job.warnings = judged_warnings({job.resolved, {}, read.warnings, read.places});
    if (planning.strict && !job.warnings.empty()) {
        throw InputError(job.warnings);
    }
    name_job(job, planning, resolved_text(job.resolved) + job.mesh);
    return job;
}

void add_board(std::vector<Job>& jobs, const std::string& path, const Planning& planning) {
    Job bare;
    const fs::path home = fs::path(planning.suite.file).parent_path();
    bare.file = fs::path(path).lexically_relative(home.empty() ? "." : home).string();
    if (bare.file.empty()) { // one of the two is absolute
        bare.file = path;
    }
    bare.board = bare.file;
    try {
        const NamedBoard read = read_named_board(board_text(path), planning.library);
        bare.board = read.board.name;
        bare.drawn = std::make_shared<const Board>(read.board);
        bare.on_edge = !planning.suite.edge.empty() && read.board.stance;
        bare.mesh = mesh_texts(read.board, bare.on_edge, planning.options);
        for (const Variant& variant : planning.suite.variants) {
            try {
                jobs.push_back(variant_job(bare, read, variant, planning));
            } catch (const std::exception& error) { // whatever it is, it is this row's
                Job job = bare;
                job.variant = variant.name;
                jobs.push_back(failed_job(job, planning, error));
            }
        }
    } catch (const std::exception& error) {
        jobs.push_back(failed_job(bare, planning, error));
    }
}

} // namespace

std::vector<Job> plan_jobs(const Suite& suite, const StudyOptions& options,
                           const MaterialLibrary& library, bool strict) {
    const Planning planning{suite, options, library, settings_text(suite, options), strict};
    std::vector<Job> jobs;
    for (const std::string& path : suite.boards) {
        add_board(jobs, path, planning);
    }
    return jobs;
}

} // namespace vrid

#include <cctype>
#include <filesystem>
#include <sstream>

#include "io/batch/job.hpp"
#include "io/batch/resolved_text.hpp"
#include "io/content_hash.hpp"
#include "io/read_board.hpp"
#include "io/read_text.hpp"
#include "io/write/program_name.hpp"

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

std::string settings_text(const StudyOptions& options) {
    std::ostringstream text;
    text.precision(17);
    text << numerics_version << " " << options.degree << " " << options.max_size;
    for (const std::string& name : options.cases) {
        text << " " << name;
    }
    return text.str();
}

void name_job(Job& job, const StudyOptions& options, const std::string& content) {
    job.key = content_hash({content, job.file, job.variant, settings_text(options)});
    const std::string name = job.variant.empty() ? job.board : job.board + " " + job.variant;
    constexpr std::size_t shown = 16;
    job.folder = "jobs/" + plain_name(name) + "-" + job.key.substr(0, shown);
}

Job failed_job(Job job, const StudyOptions& options, const InputError& error) {
    job.error = error.what();
    name_job(job, options, job.error);
    return job;
}

/// The board's mesh is that of the board as drawn, whatever a variant does to its section.
Job variant_job(const Job& bare, const NamedBoard& read, const Variant& variant, const Suite& suite,
                const StudyOptions& options) {
    Job job = bare;
    job.variant = variant.name;
    job.resolved = read.board;
    for (const auto& [name, limit] : suite.limits) {
        job.resolved.limits[name] = limit;
    }
    apply_changes(job.resolved, variant.changes, read.named);
    name_job(job, options, resolved_text(job.resolved) + job.mesh);
    return job;
}

void add_board(std::vector<Job>& jobs, const std::string& path, const Suite& suite,
               const StudyOptions& options, const MaterialLibrary& library) {
    Job bare;
    const fs::path home = fs::path(suite.file).parent_path();
    bare.file = fs::path(path).lexically_relative(home.empty() ? "." : home).string();
    bare.board = bare.file;
    try {
        const NamedBoard read = read_named_board(
            {read_text(path), path, fs::path(path).parent_path().string()}, library);
        bare.board = read.board.name;
        bare.drawn = std::make_shared<const Board>(read.board);
        bare.mesh = mesh_text(read.board, study_mesh_options(read.board, options));
        for (const Variant& variant : suite.variants) {
            try {
                jobs.push_back(variant_job(bare, read, variant, suite, options));
            } catch (const InputError& error) {
                Job job = bare;
                job.variant = variant.name;
                jobs.push_back(failed_job(job, options, error));
            }
        }
    } catch (const InputError& error) {
        jobs.push_back(failed_job(bare, options, error));
    }
}

} // namespace

std::vector<Job> plan_jobs(const Suite& suite, const StudyOptions& options,
                           const MaterialLibrary& library) {
    std::vector<Job> jobs;
    for (const std::string& path : suite.boards) {
        add_board(jobs, path, suite, options, library);
    }
    return jobs;
}

} // namespace vrid

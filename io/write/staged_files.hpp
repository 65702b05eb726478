#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace vrid {

/// Files of one result that appear in their folder together, or not at all.
///
/// Each is first written in full to a hidden temporary name in the same folder and flushed to the
/// disk; publish() then renames all of them in the order they were added. Whatever is left
/// unpublished (an error, a cancel) is removed by the destructor, and earlier files stay as they
/// were. A process killed outright can leave a temporary (".NAME.PID.part"), never a half file.
class StagedFiles {
  public:
    /// Creates the folder (and those above it) if needed. \throws OutputError
    explicit StagedFiles(std::filesystem::path folder);
    ~StagedFiles();
    StagedFiles(const StagedFiles&) = delete;
    StagedFiles& operator=(const StagedFiles&) = delete;

    /// Writes the temporary; `name` has no folder in it. \throws OutputError (a full disk, say)
    void add(const std::string& name, std::string_view bytes);
    /// Renames everything to its name. \throws OutputError
    void publish();
    /// The same for the files of a verb, which are listed in the folder (vrid-files.json): what the
    /// list has of an earlier run of that verb and this one has no more is removed. Files that the
    /// program did not write are never touched. \throws OutputError
    void publish_as(const std::string& verb);
    [[nodiscard]] std::vector<std::string> names() const; ///< added so far, in order

  private:
    std::filesystem::path folder_;
    std::vector<std::pair<std::filesystem::path, std::string>> staged_; ///< temporary, name
};

/// One file on its own: as StagedFiles with a single name. \throws OutputError
void write_file(const std::filesystem::path& path, std::string_view bytes);

} // namespace vrid

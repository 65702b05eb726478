#pragma once

#include <filesystem>

namespace vrid {

/// Keeps a folder to one batch, or to shards of one batch each with its own part. The lock is the
/// system's (flock) on a file in the folder: it ends with its process, however that ends, so a
/// stale or damaged lock file never stands in the way. The file names the holder (host, process,
/// its start), for messages and for file systems without such locks, where a dead process of this
/// host is found by its number and start time.
class FolderLock {
  public:
    /// \param shared other shared holders are welcome \throws OutputError naming the holder
    FolderLock(const std::filesystem::path& file, bool shared);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;

  private:
    int handle_ = -1;
};

} // namespace vrid

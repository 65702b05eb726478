#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "io/design/design_values.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/write/json_parts.hpp"
#include "solver/design/session.hpp"

namespace vrid {

/// A board file as it was read once, and the mesh made for it.
struct OpenedBoard {
    BoardText source;
    NamedBoard read;
    std::string revision; ///< tells this text from others
    Session session;
};

/// One board file and who works on it: all that the live page asks, without its network. What a
/// page has changed it sends with each request, so that pages do not disturb each other. May be
/// asked from several threads at once; computations take turns.
class Sitting {
  public:
    /// \throws InputError as read_board does
    Sitting(const std::string& path, Settings settings);

    /// The file as it is now on the disk: drawing, values with units, ranges and workshop steps.
    /// \throws InputError when it cannot be read
    Json opened();
    /// Tells the file's text from others; empty when it cannot be read.
    [[nodiscard]] std::string revision_now() const;
    /// The drawing of the changed board and its cross-section at x [mm].
    /// \throws InputError for a change that is refused, FileChanged for a forgotten revision
    Json drawn(const std::string& revision, const std::vector<Change>& changes, double x_mm);
    /// Its numbers with bars and limits, and if wanted their slopes, which cost a fifth more. A
    /// newer call of the same page for numbers without slopes ends it.
    /// \throws InputError, FileChanged, SolveError, Superseded
    Json solved(const std::string& revision, const std::vector<Change>& changes,
                const std::string& page, bool slopes);
    /// What lies over the board seen from above: `what` is "deflection CASE" or "twist CASE" (the
    /// twist rate) under the case's unit load, or "sanding NUMBER", the number's derivative by the
    /// core thickness. "unit", "load", and "cells": value, then the corners' x and y [mm].
    /// \throws as solved
    Json over(const std::string& revision, const std::vector<Change>& changes,
              const std::string& what, const std::string& page);
    /// The numbers of another board file in the same folder.
    Json other(const std::string& name, const std::string& page);
    /// The lines of the file that writing would change.
    Json lines(const std::string& revision, const std::vector<Change>& changes);
    /// Changes those lines of the file; with a name makes a new file beside it.
    /// \throws FileChanged when the file on the disk is not that of the revision any more,
    /// InputError for an empty name, one outside the folder or one that exists, OutputError
    Json write(const std::string& revision, const std::vector<Change>& changes,
               const std::optional<std::string>& name);
    /// Ends what is computing, now and later.
    void stop();

  private:
    using Opened = std::shared_ptr<OpenedBoard>; ///< its session only while solving_ is held
    [[nodiscard]] Opened read() const;
    Opened find(const std::string& revision);
    /// The board whose mesh the changes need, and what is left of them: design values leave the
    /// mesh as it is, other values of the file are read anew.
    struct Changed {
        Opened base;
        std::vector<Change> rest;
        Board board; ///< with the rest made
    };
    Changed changed(const std::string& revision, const std::vector<Change>& changes);
    Opened other_text(const Opened& opened, const std::vector<Change>& changes);
    std::function<void(const std::string&, double)> ticket(const std::string& page,
                                                           const std::string& what);
    BoardNumbers numbers(const Changed& changed, const std::vector<NumberId>& asked,
                         const NumbersWanted& wanted, const std::string& page,
                         const std::string& what);
    Json motion(const Changed& changed, const std::string& bench_case, bool twist,
                const std::string& page);

    std::filesystem::path file_;
    Settings settings_;
    MaterialLibrary library_;
    std::vector<Opened> known_;   ///< as read from the disk, the latest last
    std::vector<Opened> derived_; ///< with other values of the file, the latest last
    std::map<std::string, std::uint64_t> newest_; ///< by page and what it asked for
    std::uint64_t tickets_ = 0;
    bool stopped_ = false;
    std::mutex state_, solving_;
};

/// A name of a board file that stays in its folder: no folder, no hidden file, ends with .toml.
/// \throws InputError
void check_file_name(const std::string& name);

/// The page and the file on the disk are no longer about the same board: nothing was done.
class FileChanged : public std::runtime_error {
  public:
    explicit FileChanged(const std::string& why) : std::runtime_error(why) {}
};

/// A newer change has made a computation idle.
class Superseded : public std::runtime_error {
  public:
    Superseded() : std::runtime_error("a newer change has taken its place") {}
};

} // namespace vrid

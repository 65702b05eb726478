#include "lot_example.hpp"

#include "io/design/lot_board.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

namespace vrid {

LotModel lot_example(const std::string& sources) {
    const MaterialLibrary library = load_material_library();
    const Board board = read_board(sources + "/examples/nh-157-querwind/board.toml", library);
    std::string csv = "serial,mass,thickness@0,centre-flex,nose-twist,tail-twist,free-modes mode 1,"
                      "free-modes mode 2\n";
    for (int i = 0; i < 8; ++i) { // what they read is not used
        csv += std::to_string(i) + ",3.1,9.7,7.8,9.5,12.1,17.3,35\n";
    }
    const Rig rig = read_rig_text(R"(
        [[reading]]
        number = "mass"
        sd = 0.003
        [[reading]]
        number = "thickness@0"
        sd = 0.02
        [[reading]]
        number = "centre-flex"
        sd = 0.04
        [[reading]]
        number = "nose-twist"
        sd = 0.05
        [[reading]]
        number = "tail-twist"
        sd = 0.06
        [[reading]]
        number = "free-modes mode 1"
        sd = 0.05
        [[reading]]
        number = "free-modes mode 2"
        sd = 0.1
        )",
                                  "rig.toml", board);
    const Lot lot = read_lot_text(csv, "readings.csv", board);
    Settings settings;
    settings.degree = 2;
    Session session(board, settings, {"centre-flex", "nose-twist", "tail-twist", "free-modes"});
    return lot_board(session, lot, rig, rig_of(lot, rig), library).model;
}

} // namespace vrid

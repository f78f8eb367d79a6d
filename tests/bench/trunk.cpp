// SPDX-License-Identifier: MIT
// Scenes of any size.
#include "trunk.h"

#include "ebbline/text.h"

#include <sstream>

namespace ebbline::bench {

std::string sceneOf(int parts) {
    std::ostringstream scene;
    scene << "ebbline = 1\ntitle = \"a trunk\"\nsubject = \"fridge\"\n"
             "[[part]]\nid = \"house\"\nkind = \"battery\"\n"
             "[[part]]\nid = \"main-fuse\"\nkind = \"fuse\"\nrating_a = 15\n"
             "[[part]]\nid = \"fridge\"\nkind = \"controller\"\n";
    const double metres = 4.0 / parts;
    int runs = 0;
    const auto run = [&](const std::string& from, const std::string& to, double length_m) {
        scene << "[[run]]\nid = \"run-" << runs++ << "\"\nfrom = \"" << from << "\"\nto = \"" << to
              << "\"\narea_mm2 = 6\nlength_m = " << text::number(length_m)
              << "\njoint_from = \"crimp\"\njoint_to = \"crimp\"\n";
    };
    run("house.plus", "main-fuse.line", 0.2);
    std::string plus = "main-fuse.load";
    std::string minus = "house.minus";
    for (int i = 3; i < parts; ++i) {
        const std::string id = "part-" + std::to_string(i);
        if (i % 10 == 9) {
            scene << "[[part]]\nid = \"" << id << "\"\nkind = \"load\"\nlaw = \"current\"\n"
                  << "current_a = 0.01\n";
            run(plus, id + ".plus", 0.5);
            run(minus, id + ".minus", 0.5);
            continue;
        }
        scene << "[[part]]\nid = \"" << id << "\"\nkind = \"splice\"\n";
        std::string& side = i % 2 == 0 ? plus : minus;
        run(side, id + ".line", 0.02 + metres);
        side = id + ".load";
    }
    run(plus, "fridge.plus", 1);
    run("fridge.minus", minus, 1);
    return scene.str();
}

} // namespace ebbline::bench

// SPDX-License-Identifier: MIT
// The drawing as a graph: which conductor, joint and device lies between which electrical nodes.
#pragma once

#include "ebbline/installation.h"
#include "ebbline/models.h"
#include "ebbline/words.h"

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace ebbline {

enum class ElementKind {
    Conductor,
    Joint,
    Contact, ///< isolator, panel switch, plug contact, or a joint that opens or closes
    Fuse,
    Breaker,
    Battery,
    Charger,
    Controller,
    Thermostat,
    Load,
    Meter,
};

/// One thing that carries current between two nodes; positive current flows `from` -> `to`.
struct Element {
    std::string name; ///< "twin.1", "twin.1.from", "main-fuse", "neg.face-2"
    ElementKind kind = ElementKind::Conductor;
    int from = 0; ///< node index
    int to = 0;   ///< node index
    /// At the ambient temperature; of a fuse: cold; of a contact: closed; of a joint with a film:
    /// what an ohmmeter of small current reads.
    double ohm = 0;
    double henry = 0;
    double film_ohm = 0; ///< share of `ohm` that a film has at small currents
    double film_v = 0;   ///< most that it holds
    double warm_ohm = 0; ///< of a fuse: what its rated current adds to `ohm` in the end
    double parts_a = 0;  ///< of a fuse or breaker: it opens, in the end, above this
    bool linear = true;  ///< a fixed R and L in series; may be merged with its neighbours
    std::string part;    ///< id of the part or run it belongs to
    double area_mm2 = 0; ///< cross-section of a conductor
    bool closed = true;  ///< of a contact, load or charger: at power-on; of a thermostat: at time 0
    std::vector<std::pair<double, bool>> switchings; ///< scene time, closed from then on; sorted
    /// The same of a loose joint that opens by itself for a moment, by chance.
    std::vector<std::pair<double, bool>> openings;
    bool operator==(const Element&) const = default;
};

/// An element and the way it is gone through: +1 from -> to, -1 the other way.
struct Step {
    int element = 0;
    int sign = 1;
    bool operator==(const Step&) const = default;
};

/// A linear element of a branch.
struct Member {
    int element = 0;
    /// Of the branch's current, what flows in the element from -> to; negative where the element
    /// lies the other way round, 1 in size where nothing lies beside it.
    double share = 1;
    bool operator==(const Member&) const = default;
};

/// One R-L in the circuit: one linear element, or several in a row or side by side.
struct Branch {
    int from = 0;
    int to = 0;
    double ohm = 0;
    double henry = 0;
    /// How inner voltages are restored: each begins at `from` or where an earlier one ends.
    std::vector<Member> members;
};

/// The way from a battery to the judged controller and back.
struct SupplyLoop {
    int battery = 0;        ///< element index
    int controller = 0;     ///< element index
    std::vector<Step> out;  ///< battery plus -> controller plus
    std::vector<Step> back; ///< controller minus -> battery minus
    bool reversed = false;  ///< the controller's plus is nearer to the battery's minus
    bool operator==(const SupplyLoop&) const = default;
};

/// The installation as a graph. Nodes are numbered from 0; node 0 is the circuit's reference.
struct Network {
    Installation installation;
    std::vector<std::string> nodes; ///< the first terminal of each node, for messages
    std::vector<Element> elements;
    std::vector<Branch> branches;   ///< every linear element is in exactly one
    std::vector<int> islands;       ///< island of each node; node 0 lies in island 0
    std::optional<SupplyLoop> loop; ///< absent when no closed way leads to the controller

    [[nodiscard]] int subject() const; ///< element index of the judged controller
    /// Node of a part's terminal, if anything is connected to it.
    [[nodiscard]] std::optional<int> findNode(const Terminal& terminal) const;
};

namespace network {

/// Builds the graph. Throws SceneError for a size or class that no catalogue holds.
[[nodiscard]] Network build(const Installation& installation, const Catalogues& catalogues);

/// The same network with linear elements merged that lie in a row, where R and L add up, or side by
/// side off the supply loop where both are plain resistances or have the same L/R: all exactly.
[[nodiscard]] Network reduce(Network network);

/// Resistance of the supply loop out and back, battery left out, fuses cold, contacts closed, ohms.
[[nodiscard]] double loopOhm(const Network& network);

/// Resistance of a conductor of `length_m` at `celsius`, ohms.
/// R(t) = R20 (234.5 + t) / 254.5 (IEC 60287; copper, 0.00393 per K at 20 C).
[[nodiscard]] double conductorOhm(double mohm_per_m_20c, double length_m, double celsius);

/// Metal and film of a joint at `amps`, ohms. The film has film_v tanh(amps film_ohm / film_v) /
/// amps (ESTIMATE for its shape), at small currents film_ohm.
[[nodiscard]] double jointOhm(const Element& joint, double amps);

/// Diameter of a thin-walled core over its insulation, mm. ESTIMATE: within 6 % of usual cores from
/// 1.5 to 35 mm2; a pair laid together lies that far apart.
[[nodiscard]] double coreDiameter(double area_mm2);
/// Inductance of two parallel round wires per metre of the pair, H/m: mu0/pi (ln(D/r) + 1/4), with
/// the radius of a solid wire of that area (Rosa, Grover; from memory).
[[nodiscard]] double pairInductance(double area_mm2, double apart_mm);
/// Of a single wire over the metal that its current returns by, H/m: mu0/2pi (ln(2h/r) + 1/4)
/// (Rosa, Grover; from memory).
[[nodiscard]] double inductanceOverMetal(double area_mm2, double height_mm);
/// What a conductor of the run takes of it, H/m: half of a pair's, all of a single one's.
[[nodiscard]] double inductancePerM(const Run& run, double area_mm2);

/// ASTM B258: diameter of AWG n in mm, 0.127 * 92^((36 - n) / 39). 1/0 is n = 0, 4/0 n = -3.
[[nodiscard]] double awgDiameter(double gauge);
/// Cross-section in mm2 of AWG n by the same formula.
[[nodiscard]] double awgArea(double gauge);
/// Cross-section in mm2 of the SAE minimum-area size n (18, 16 ... 1, 0 = 1/0 ... -3 = 4/0).
[[nodiscard]] std::optional<double> saeArea(double gauge);

/// The gauge in the shops that is nearest to a cross-section.
[[nodiscard]] double nearestGauge(double area_mm2);
/// "2.5 mm2", "AWG 12", "SAE 1/0", as the reader wants sizes: "2.5 mm2 (about AWG 14)".
[[nodiscard]] std::string sizeWords(const Size& size, Sizes sizes = reader().sizes);

/// Resistance at 20 C per metre of a conductor of that size and class, mohm/m; nothing when the
/// catalogue has no such size. Gauges use 17.241 ohm mm2/km over their area (IEC 60028).
[[nodiscard]] std::optional<double>
conductorMohmPerM(const Size& size, const std::string& conductor, const Catalogues& catalogues);

} // namespace network
} // namespace ebbline

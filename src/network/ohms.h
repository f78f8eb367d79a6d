// SPDX-License-Identifier: MIT
// Resistances that a drawing leaves to the catalogues.
#pragma once

#include "ebbline/installation.h"
#include "ebbline/models.h"
#include "ebbline/network.h"

#include <string>

namespace ebbline::network {

/// Every function throws SceneError, without a place, for what no catalogue holds.
class Ohms {
public:
    explicit Ohms(const Catalogues& catalogues) : m_catalogues(catalogues) {}

    [[nodiscard]] double joint(const std::string& name, const Joint& joint) const;
    /// Ohms of a fuse, cold and with its holder, what they grow by, and where it opens in the end.
    void setFuse(Element& element, const Fuse& fuse) const;
    /// From one bond into the metal.
    [[nodiscard]] double spread(const std::string& id, const Chassis& chassis) const;
    [[nodiscard]] double conductor(const std::string& name,
                                   const Size& size,
                                   const std::string& conductor,
                                   double length_m,
                                   double celsius) const;

private:
    /// Of the cold element alone, new.
    [[nodiscard]] double elementMohm(const std::string& id, const Fuse& fuse) const;

    const Catalogues& m_catalogues;
};

/// Cross-section in mm2, of whatever scale it was stated in.
[[nodiscard]] double areaOf(const Size& size);

} // namespace ebbline::network

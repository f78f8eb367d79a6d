// SPDX-License-Identifier: MIT
// Two paintings of one picture, compared as an eye does that stands a little back.
#include "pixels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace ebbline::pixels {
namespace {

constexpr std::size_t reach = 6; // three standard deviations
constexpr std::size_t channels = 3;

std::array<float, 2 * reach + 1> weights() {
    constexpr double deviation = 2;
    std::array<float, 2 * reach + 1> all{};
    double sum = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const double from_middle = static_cast<double>(i) - static_cast<double>(reach);
        all[i] =
            static_cast<float>(std::exp(-from_middle * from_middle / (2 * deviation * deviation)));
        sum += static_cast<double>(all[i]);
    }
    for (float& weight : all)
        weight /= static_cast<float>(sum);
    return all;
}

/// One row after the other, its rim repeated beyond it.
std::vector<float> blurAcross(const Pixels& from) {
    static const auto all_weights = weights();
    std::vector<float> blurred(from.channels.size());
    std::vector<float> wide((from.width + 2 * reach) * channels);
    const std::size_t stride = from.width * channels;
    for (std::size_t row = 0; row < from.height; ++row) {
        const float* begin = from.channels.data() + row * stride;
        for (std::size_t i = 0; i < reach; ++i)
            for (std::size_t c = 0; c < channels; ++c) {
                wide[i * channels + c] = begin[c];
                wide[(reach + from.width + i) * channels + c] = begin[stride - channels + c];
            }
        std::copy(begin, begin + stride, wide.data() + reach * channels);
        float* out = blurred.data() + row * stride;
        for (std::size_t k = 0; k < all_weights.size(); ++k)
            for (std::size_t i = 0; i < stride; ++i)
                out[i] += all_weights[k] * wide[i + k * channels];
    }
    return blurred;
}

std::vector<float> blurDown(const Pixels& from) {
    static const auto all_weights = weights();
    std::vector<float> blurred(from.channels.size());
    const std::size_t stride = from.width * channels;
    for (std::size_t row = 0; row < from.height; ++row) {
        float* out = blurred.data() + row * stride;
        for (std::size_t k = 0; k < all_weights.size(); ++k) {
            const std::size_t other = std::clamp(row + k, reach, from.height - 1 + reach) - reach;
            const float* in = from.channels.data() + other * stride;
            for (std::size_t i = 0; i < stride; ++i)
                out[i] += all_weights[k] * in[i];
        }
    }
    return blurred;
}

bool differs(const Pixels& one, const Pixels& other, std::size_t pixel) {
    constexpr float most_off = 16;
    const std::size_t at = pixel * channels;
    for (std::size_t c = 0; c < channels; ++c)
        if (std::abs(one.channels[at + c] - other.channels[at + c]) > most_off)
            return true;
    return false;
}

} // namespace

Pixels pixelsOf(const sf::Image& image) {
    Pixels pixels{.width = image.getSize().x, .height = image.getSize().y, .channels = {}};
    const sf::Uint8* bytes = image.getPixelsPtr();
    pixels.channels.reserve(pixels.width * pixels.height * channels);
    for (std::size_t i = 0; i < pixels.width * pixels.height; ++i)
        for (std::size_t c = 0; c < channels; ++c)
            pixels.channels.push_back(static_cast<float>(bytes[4 * i + c] * bytes[4 * i + 3]) /
                                      255.F);
    return pixels;
}

Pixels blurred(const Pixels& sharp) {
    Pixels half{sharp.width, sharp.height, blurAcross(sharp)};
    half.channels = blurDown(half);
    return half;
}

Difference::Difference(const Pixels& blurred, const Pixels& other)
    : m_width(blurred.width), m_height(blurred.height), m_differs(m_width * m_height) {
    if (m_width != other.width || m_height != other.height)
        throw std::invalid_argument("pictures of two sizes");
    for (std::size_t i = 0; i < m_differs.size(); ++i)
        m_differs[i] = differs(blurred, other, i) ? 1 : 0;
}

double Difference::share() const {
    return shareIn({0, 0, static_cast<double>(m_width), static_cast<double>(m_height)});
}

double Difference::shareIn(const Box& box) const {
    const auto pixel = [](double at, std::size_t end) {
        return static_cast<std::size_t>(std::clamp(std::round(at), 0.0, static_cast<double>(end)));
    };
    std::size_t looked_at = 0;
    std::size_t different = 0;
    for (std::size_t y = pixel(box.y, m_height); y < pixel(box.bottom(), m_height); ++y)
        for (std::size_t x = pixel(box.x, m_width); x < pixel(box.right(), m_width); ++x) {
            ++looked_at;
            different += static_cast<std::size_t>(m_differs[y * m_width + x]);
        }
    return looked_at == 0 ? 0 : static_cast<double>(different) / static_cast<double>(looked_at);
}

} // namespace ebbline::pixels

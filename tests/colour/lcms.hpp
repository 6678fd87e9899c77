// The outside opinion on colour: Little CMS.
#pragma once

#include <doctest/doctest.h>
#include <lcms2.h>

#include <memory>

#include "colour/spaces.hpp"

namespace battwright::testing {

inline cmsCIELab lcms(const colour::Lab& c) {
    return {c.l, c.a, c.b};
}
inline cmsCIEXYZ lcms(const colour::Xyz& c) {
    return {c.x, c.y, c.z};
}

// D65 as the sRGB standard gives it: x, y = 0.3127, 0.3290, Y = 1.
inline cmsCIEXYZ lcms_d65() {
    const cmsCIExyY xyy{0.3127, 0.3290, 1.0};
    cmsCIEXYZ xyz;
    cmsxyY2XYZ(&xyz, &xyy);
    return xyz;
}

// Little CMS's built-in sRGB profile to XYZ. Profiles speak D50: XYZ comes out adapted to it, Y = 1 for
// white.
class LcmsSrgb {
  public:
    LcmsSrgb() {
        cmsHPROFILE srgb = cmsCreate_sRGBProfile();
        cmsHPROFILE xyz = cmsCreateXYZProfile();
        transform_.reset(cmsCreateTransform(srgb, TYPE_RGB_DBL, xyz, TYPE_XYZ_DBL,
                                            INTENT_RELATIVE_COLORIMETRIC,
                                            cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE));
        cmsCloseProfile(srgb);
        cmsCloseProfile(xyz);
        REQUIRE(transform_ != nullptr);
    }
    cmsCIEXYZ d50(const colour::Srgb& c) const {
        const double in[3] = {c.r, c.g, c.b};
        cmsCIEXYZ out;
        cmsDoTransform(transform_.get(), in, &out, 1);
        return out;
    }
    // Taken back to D65 by Little CMS's own Bradford, so that the whole second opinion is Little CMS's.
    cmsCIEXYZ d65(const colour::Srgb& c) const {
        const cmsCIEXYZ from = d50(c), to = lcms_d65();
        cmsCIEXYZ out;
        REQUIRE(cmsAdaptToIlluminant(&out, cmsD50_XYZ(), &to, &from));
        return out;
    }

  private:
    std::unique_ptr<void, void (*)(cmsHTRANSFORM)> transform_{nullptr, cmsDeleteTransform};
};

}  // namespace battwright::testing

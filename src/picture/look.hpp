// How pictures look. Private.
//
// Colours are those of Okabe and Ito, Color Universal Design (2008), chosen to be told apart with
// every common kind of colour vision; hatching, dashes and markers tell the same in grey.
#pragma once

#include <string_view>

namespace gelwright::detail {

/// Of the text, in units of the picture: 360 of them are its width, so that on a page of 360 px it
/// is still over 9 px.
inline constexpr double text_size = 10.5;
inline constexpr double title_size = 12;

inline constexpr std::string_view picture_style = R"(
.pic{--ink:#1a1a1a;--paper:#fff;--line:#767676;--k0:#56b4e9;--k1:#0072b2;--k2:#cc79a7;--k3:#f0e442;--k4:#009e73;--k5:#e69f00;--k6:#d55e00;color:var(--ink)}
@media (prefers-color-scheme:dark){.pic{--ink:#eee;--paper:#161616;--line:#8c8c8c}}
@media print{.pic{--ink:#000;--paper:#fff;--line:#777}}
.pic text{font:10.5px system-ui,"Liberation Sans","DejaVu Sans",Arial,sans-serif}
.pic text{fill:var(--ink)}
.pic .title{font-size:12px;font-weight:700}
.pic .halo{paint-order:stroke;stroke:var(--paper);stroke-width:3.5px;stroke-linejoin:round}
.pic .ground{fill:var(--paper)}
.pic .frame{fill:none;stroke:var(--ink);stroke-width:1}
.pic .tick{stroke:var(--ink);stroke-width:1}
.pic .grid{stroke:var(--line);stroke-width:.5;stroke-dasharray:1 3}
.pic .curve{fill:none;stroke:var(--ink);stroke-width:2;stroke-linejoin:round}
.pic .curve1{stroke:#0072b2;stroke-dasharray:7 4}
.pic .curve2{stroke:#d55e00;stroke-dasharray:2 3}
@media (prefers-color-scheme:dark){.pic .curve1{stroke:#56b4e9}.pic .curve2{stroke:#e69f00}}
.pic .band{fill:var(--ink);fill-opacity:.13;stroke:var(--line);stroke-width:.8}
.pic .window{fill:#009e73;fill-opacity:.14;stroke:none}
.pic .limit{stroke:var(--ink);stroke-width:1.2;stroke-dasharray:10 3 2 3}
.pic .mark{fill:var(--paper);stroke:var(--ink);stroke-width:1.5}
.pic .mark0{fill:var(--ink)}
.pic .off{stroke:var(--ink);stroke-width:1.5}
.pic .edge{fill:none;stroke:var(--ink);stroke-width:1}
.pic .hatch{stroke:var(--ink);stroke-width:.8;fill:none;opacity:.55}
.pic .dot{fill:var(--ink);opacity:.55}
.pic .k0{fill:var(--k0)}.pic .k1{fill:var(--k1)}.pic .k2{fill:var(--k2)}.pic .k3{fill:var(--k3)}.pic .k4{fill:var(--k4)}.pic .k5{fill:var(--k5)}.pic .k6{fill:var(--k6)}
.pic .s0{fill-opacity:.25}.pic .s1{fill-opacity:.5}.pic .s2{fill-opacity:.8}
.pic .bar{fill:#0072b2;stroke:var(--ink);stroke-width:.8}
@media (prefers-color-scheme:dark){.pic .bar{fill:#56b4e9}}
)";

}  // namespace gelwright::detail

// The style sheet of the HTML page. Private.
//
// One sheet for a phone of 360 px, a screen, and paper: A4 and Letter, colour or black and white.
// Nothing is told by colour alone. Colours keep a contrast of 7:1 for text (WCAG 2.2, 1.4.6).
#pragma once

#include <string_view>

namespace gelwright::detail {

inline constexpr std::string_view page_style = R"(
:root{color-scheme:light dark;--ink:#1a1a1a;--soft:#444;--paper:#fff;--line:#767676;--stop:#8a0000;--fill:#f2f2f2}
@media (prefers-color-scheme:dark){:root{--ink:#eee;--soft:#ccc;--paper:#161616;--line:#8c8c8c;--stop:#ffb3b3;--fill:#2a2a2a}}
*{box-sizing:border-box}
html{font:16px/1.4 system-ui,"Liberation Sans","DejaVu Sans",Arial,sans-serif;background:var(--paper);color:var(--ink)}
body{margin:0;padding:.75rem}
main{max-width:56rem;margin:0 auto;overflow-wrap:anywhere}
h1{font-size:1.5rem;line-height:1.2;margin:0 0 .6rem}
h2{font-size:1rem;line-height:1.25;margin:1.4rem 0 .3rem;padding-top:.3rem;border-top:2px solid var(--ink)}
p{margin:.3rem 0}
ul,ol{margin:.3rem 0;padding-left:1.6rem}
table{border-collapse:collapse;width:100%;margin:.3rem 0}
th,td{text-align:left;vertical-align:top;padding:.2rem .5rem .2rem 0;font-weight:400}
thead th{font-weight:700;vertical-align:bottom;border-bottom:1px solid var(--ink)}
tbody tr+tr>*{border-top:1px solid var(--line)}
.number{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}
.figures>tbody>tr>th{font-weight:700;width:1%;min-width:9rem;padding-right:1rem}
.card .figures>tbody>tr>th{min-width:6.2rem}
.card .cut .figures>tbody>tr>th{min-width:9.5rem}
.level{font-weight:700}
.stop{font-weight:700;color:var(--stop)}
td.large{font-size:1.4rem;line-height:1.15;font-weight:700}
.tick{width:2rem}
.tick input{width:1.3rem;height:1.3rem;margin:.1rem 0}
.write{width:6.5rem}
.write input{width:100%;min-width:4.5rem;height:1.9rem;font:inherit;text-align:right;color:inherit;background:transparent;border:1px solid var(--line);border-radius:2px}
.hidden{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.cut{border:2px dashed var(--ink);padding:.3rem .6rem;margin:1rem 0;break-inside:avoid}
.cut h2{border:0;margin:0;padding:0}
@media print,(min-width:40rem){.cut .figures>tbody{display:grid;grid-template-columns:1fr 1fr;column-gap:1rem}
 .cut .figures>tbody>tr{display:flex}
 .cut .figures>tbody>tr+tr>*{border:0}
 .cut .figures>tbody>tr:last-child{grid-column:1/-1}}
.blank{display:inline-block;min-width:8rem;margin-right:.5rem;border-bottom:1px solid var(--ink)}
.cautions{font-size:.9rem;margin-top:.8rem}
figure{margin:.6rem 0;break-inside:avoid}
figure svg{display:block;width:100%;max-width:40rem;height:auto}
@media screen and (max-width:40rem){
 .rows>thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
 .rows,.rows>tbody{display:block}
 .rows>tbody>tr{display:flex;flex-wrap:wrap;column-gap:1rem;padding:.25rem 0;border-top:1px solid var(--line)}
 .rows>tbody>tr>*{display:block;border:0;padding:.05rem 0;width:auto;max-width:100%}
 .rows>tbody>tr>.lead{flex:1 0 100%;font-weight:700}
 .rows>tbody>tr>[data-label]::before{content:attr(data-label) ": ";color:var(--soft);font-weight:400;font-size:1rem}
 .steps>tbody>tr>.words{flex:1 1 calc(100% - 6.5rem)}
 .steps>tbody>tr>.words[data-label]::before{content:none}
 .steps>thead{position:static;clip-path:none;width:auto;height:auto;display:block}
 .steps>thead>tr{display:block}
 .steps>thead th{display:none}
 .steps>thead th.words{display:block;border:0}
 .steps>tbody>tr>.write{display:flex;gap:.4rem;align-items:center}
 .steps>tbody>tr>.write input{width:6rem}
 .figures>tbody>tr>th,.figures>tbody>tr>td,.card .cut .figures>tbody>tr>th{display:block;width:auto;min-width:0}
 .figures,.figures>tbody,.figures>tbody>tr{display:block}
 .figures>tbody>tr+tr{border-top:1px solid var(--line)}
 .figures>tbody>tr+tr>*{border-top:0}
}
@page{margin:9mm 10mm}
@media print{
 :root{--ink:#000;--soft:#000;--paper:#fff;--line:#777;--stop:#000;--fill:#fff}
 html{font-size:8.8pt;line-height:1.2}
 body{padding:0}
 main{max-width:none}
 h1{font-size:13pt;margin:0 0 .6mm}
 h2{margin:1.6mm 0 .4mm;padding-top:.6mm;break-after:avoid;border-top-width:1pt}
 p{margin:.4mm 0}
 table{margin:.2mm 0}
 th,td{padding:.3mm 2mm .3mm 0}
 tr{break-inside:avoid}
 thead{display:table-header-group}
 thead th{white-space:nowrap}
 td.large{font-size:12pt;line-height:1}
 .tick input{appearance:none;width:2.9mm;height:2.9mm;margin:.1mm 0;border:.3mm solid #000;border-radius:0}
 .write input{height:4.2mm;border:.3mm solid #000;border-radius:0}
 .write{width:27mm;padding-right:0}
 .cut{margin:1.6mm 0 0;padding:.8mm 2mm}
 .cautions{font-size:7.8pt;line-height:1.15;margin-top:1mm}
 .card .cautions p{display:inline}
 .more{break-before:page}
}
)";

}  // namespace gelwright::detail

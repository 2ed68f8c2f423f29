#pragma once

#include <string_view>

namespace benchwarden::print {

/// What stands between <style> and </style>. Black on white; nothing is said by colour.
inline constexpr std::string_view kHtmlStyle = R"(
*{box-sizing:border-box}
body{margin:0 auto;max-width:62rem;padding:1.5rem;color:#000;background:#fff;
font:1rem/1.5 "DejaVu Sans",Verdana,sans-serif;overflow-wrap:break-word}
h1{font-size:1.8rem;line-height:1.25;margin:0 0 .5rem}
h2{font-size:1.3rem;margin:2rem 0 .5rem}
h3{font-size:1.1rem;margin:1.5rem 0 .5rem}
h4{font-size:1rem;margin:1.25rem 0 .5rem}
h5{font-size:1rem;margin:1rem 0 .5rem}
a{color:inherit}
p{margin:.5rem 0}
header{border-bottom:2px solid #000;padding-bottom:.5rem;margin-bottom:1rem}
header p{margin:0}
.mark{border:2px solid #000;padding:.25rem .5rem;text-align:center;font-weight:bold}
.small{font-size:.875rem}
p.caution{border-left:4px solid #000;padding-left:.75rem}
table{border-collapse:collapse;width:100%;margin:1rem 0;font-size:.875rem;
font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:bold;font-size:1rem;padding:.25rem 0}
th,td{padding:.25rem .5rem;text-align:left;vertical-align:top;border-bottom:1px solid #777}
thead th,thead td{vertical-align:bottom;background:#ebebeb;border-bottom:1px solid #000}
tbody th,tbody th.n{font-weight:normal}
.unit{display:block;font-weight:normal}
.n{text-align:right;white-space:nowrap;overflow-wrap:normal}
thead .n{white-space:normal}
.short{white-space:nowrap}
.lack-1{padding-right:calc(.5rem + 1ch)}
.lack-2{padding-right:calc(.5rem + 2ch)}
.lack-3{padding-right:calc(.5rem + 3ch)}
.whole.lack-1{padding-right:calc(.5rem + 1.5ch)}
.whole.lack-2{padding-right:calc(.5rem + 2.5ch)}
.whole.lack-3{padding-right:calc(.5rem + 3.5ch)}
tr.total th,tr.total td{border-top:1px solid #000;font-weight:bold}
tr.led th,tr.led td{border-bottom:0}
tr.detail td{padding-left:2rem}
dl.figures{display:flex;flex-wrap:wrap;gap:1rem;margin:1rem 0}
dl.figures div{flex:1 1 11rem}
dt{font-size:.875rem}
dd{margin:0}
dd strong{font-size:1.4rem}
figure{margin:1rem 0}
figcaption{font-weight:bold;padding:.25rem 0}
svg{display:block;width:100%;font-family:inherit}
figure.code svg{width:auto}
figure.code p{margin:0}
table.check td{width:50%}
.answer{display:inline-block;margin-right:1.5rem}
.write{display:inline-block;width:8rem;height:1.75rem;border-bottom:1px solid #000}
ul.contents,ul.index{list-style:none;padding:0;margin:.5rem 0}
ul.index{columns:6rem auto}
.level-1{font-weight:bold;margin-top:.25rem}
.level-2{padding-left:1.5rem}
.level-3{padding-left:3rem}
.level-4{padding-left:4.5rem}
.box{border:1px solid #000;padding:.5rem .75rem;margin:1rem 0}
.box ul{margin:.25rem 0;padding-left:1.25rem}
.box.caution{border-left-width:6px}
ul.sign{list-style:none;display:flex;flex-wrap:wrap;gap:1rem;padding:0;margin:3.5rem 0 1rem}
ul.sign li{flex:1 1 11rem;border-top:1px solid #000;font-size:.875rem}
.label{border:1px solid #000;padding:.5rem .75rem;margin:1rem 0;max-width:32rem}
.label svg{display:inline-block;width:7rem}
.label .words{font-size:2.2rem;line-height:1.2;font-weight:bold}
.label .name{font-size:1.4rem;line-height:1.2;font-weight:bold}
footer{border-top:1px solid #000;margin-top:2rem;padding-top:.5rem;font-size:.875rem}
@media print{
@page{margin:15mm 15mm 15mm 20mm}
html{font-size:10pt}
body{max-width:none;padding:0}
table{font-size:7.5pt}
th,td{padding:.15rem .3rem}
thead{display:table-header-group}
tfoot{display:table-row-group}
tr,figure,.box,.label,p,li,dl.figures div,ul.sign{break-inside:avoid}
tr.led,h1,h2,h3,h4,h5,caption,thead,tbody tr:first-child,
:is(h2,h3,h4,h5)+p:not(:last-child){break-after:avoid}
tr.total{break-before:avoid}
.new-page{break-before:page}
}
)";

}  // namespace benchwarden::print

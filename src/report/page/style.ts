import { dayStyle } from '../pictures/day-chart.ts';
import { faceStyle } from '../pictures/face.ts';
import { filmStyle } from '../pictures/film.ts';
import { partsStyle } from '../pictures/parts.ts';

/** The page's own style: calm, no file beside it, light or dark as the reader has it, always light on paper. */
export const style = `
:root{color-scheme:light dark;--paper:#fbfaf6;--ink:#1e2a30;--soft:#57646b;--line:#d9d6cc;
--spray:#cfe3de;--wait:#e4e0d6;--scuff:#f0e2b8;--sand:#e8cdb4;--stop:#efc9c0;--pass:#1f5f5b;--warn:#9a3412;--target:#0f4c81}
@media screen and (prefers-color-scheme:dark){:root{--paper:#14191c;--ink:#e8e5dc;--soft:#a4afb4;--line:#37424a;
--spray:#24504b;--wait:#333a3f;--scuff:#57491c;--sand:#5c3f28;--stop:#642f28;--pass:#8fd0c6;--warn:#f2a07f;--target:#8cc0f0}}
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);font:16px/1.5 system-ui,-apple-system,"Segoe UI","DejaVu Sans",sans-serif;-webkit-text-size-adjust:100%}
body{margin:0 auto;padding:24px 16px 64px;max-width:1120px;overflow-wrap:anywhere}
thead th{overflow-wrap:normal}tbody th{min-width:9.5em}td.words{min-width:6em}
h1{font-size:1.75rem;line-height:1.2;margin:0 0 4px}
h2{font-size:1.25rem;margin:48px 0 8px;padding-top:12px;border-top:2px solid var(--ink)}
h3{font-size:1.05rem;margin:28px 0 4px}
p{margin:6px 0;max-width:44em}
a{color:inherit}
.under{color:var(--soft);margin:0}
.notice{border-left:4px solid var(--warn);padding:2px 0 2px 12px}
.none{color:var(--soft)}
.counts{display:flex;flex-wrap:wrap;gap:2px 18px;margin:16px 0 8px;padding:0;list-style:none;font-size:.875rem;color:var(--soft)}
.counts strong{color:var(--ink);font-variant-numeric:tabular-nums}
.verdict{display:flex;flex-wrap:wrap;gap:0 28px;margin:12px 0}
.verdict h2{flex-basis:100%;margin:16px 0 0;border:0;padding:0}
.verdict div{flex:1 1 17em}.verdict h3{margin:8px 0 2px}.verdict ul{margin:0;padding-left:1.1em}
details{margin:10px 0}summary{cursor:pointer;font-weight:600;font-size:.875rem;padding:4px 0}
details caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);padding:0}
.print{font-size:.875rem}
nav ul{display:flex;flex-wrap:wrap;gap:4px 18px;padding:0;margin:0;list-style:none}
figure{margin:16px 0 8px}
figcaption{color:var(--soft);font-size:.875rem;margin-top:6px}
.caps{display:flex;flex-wrap:wrap;gap:12px 24px}.caps div{width:150px}.caps span{display:block;font-size:.875rem;line-height:1.3}
svg{display:block;overflow:visible}
svg text{font-size:12px;fill:var(--ink);font-variant-numeric:tabular-nums}
svg .name{font-weight:600}
svg .tick{fill:var(--soft)}
svg .value,svg .coat,svg .name{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
svg .coat{font-weight:700}
.grid{stroke:var(--line)}
.hatch{stroke:var(--ink);stroke-opacity:.55;stroke-width:1;fill:none}.dot{fill:var(--ink);fill-opacity:.6}
.fill-wait{fill:var(--wait)}.fill-spray{fill:var(--spray)}.fill-scuff{fill:var(--scuff)}.fill-sand{fill:var(--sand)}.fill-break{fill:var(--stop)}
.pass{color:var(--pass);stroke:var(--pass);stroke-width:2}.pass.part,.pass.unsaid{fill-opacity:.35}.pass.none{stroke-dasharray:2 2}
.window,.film,.wait,.break,.mixed{stroke:var(--ink);stroke-opacity:.6;stroke-width:1}
.in-gun{color:var(--pass);stroke:var(--pass);stroke-width:2}.span{color:var(--ink)}
.mark{stroke:var(--paper);stroke-width:1;fill:var(--ink)}
.mark.short,.mark.good,.mark.override{fill:var(--paper);stroke:var(--ink);stroke-width:1.5}
.mark.fault,.mark.aside,.mark.out,.mark.differed,.mark.broken{fill:var(--warn)}
.surface,.dew{fill:none;stroke:var(--ink);stroke-width:1.5}.dew{stroke-dasharray:5 4}
.target{stroke:var(--target);stroke-width:2.5}.sag{stroke:var(--warn);stroke-width:2;stroke-dasharray:4 3}.measured{stroke:var(--ink);stroke-width:5}
.cap{fill:var(--wait);stroke:var(--ink)}.horn{fill:var(--ink)}.tip{fill:var(--ink)}
${faceStyle}${partsStyle}${dayStyle}${filmStyle}
table{border-collapse:collapse;width:100%;margin:14px 0 8px;font-size:.875rem}
caption{text-align:left;font-weight:600;padding:6px 0}
th,td{text-align:left;vertical-align:top;padding:5px 12px 5px 0;border-bottom:1px solid var(--line);font-weight:400}
thead th{font-weight:600;color:var(--soft);border-bottom:1px solid var(--ink)}
.figure{text-align:right;font-variant-numeric:tabular-nums;white-space:nowrap}
footer{margin-top:56px;border-top:1px solid var(--line);color:var(--soft);font-size:.875rem}
@media screen and (max-width:1100px){
table,tbody,tr,th,td,caption{display:block}
thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
tbody tr{border-bottom:1px solid var(--line);padding:7px 0}
tbody th{font-weight:600;border:0;padding:0;text-align:left;white-space:normal}
td,td.figure{border:0;padding:0 14px 0 0;display:inline-block;text-align:left;white-space:normal}
td:empty{display:none}
td.words{min-width:0}
td::before{content:attr(data-head) ": ";color:var(--soft)}
}
@media print{
@page{margin:14mm}
html{font-size:10.5pt}
body{padding:0;max-width:none}
nav,.print{display:none}
body:has(#print-tables:checked) details::details-content{content-visibility:visible;block-size:auto;display:block}
body:not(:has(#print-tables:checked)) details:not([open]){display:none}
h2{margin-top:28px}
h2,h3,h2+p,caption,thead{break-after:avoid}
tbody tr:first-child{break-before:avoid}
.figure{white-space:normal;overflow-wrap:normal}th,td{padding-right:8px}tbody th{min-width:7.5em}td.words{min-width:4.5em}
figure,tr,p,.counts li,.verdict div{break-inside:avoid}
thead{display:table-header-group}
svg{print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
`;

#include "io/report/report.hpp"

namespace vrid {

// Six line colours (c), ten layer colours (l), six shades of the map (m) with the ink on them (v).
// Kept by tests/io/report/palette_test: apart in protan and deutan vision, lines and ink readable
// on their ground. Nothing is told by colour alone: lines differ by dashes, cells say their number.
const char* const report_style = R"css(
:root{color-scheme:light dark;--paper:#faf8f4;--ink:#1d2328;--soft:#626b73;--rule:#d9d5cc;--card:#fff;
--accent:#0b5c8a;--warn:#a63a12;--board:#efebe2;
--c0:#0984c9;--c1:#c48908;--c2:#339a92;--c3:#48145b;--c4:#614806;--c5:#2a281f;
--l0:#1d2d36;--l1:#e3b74b;--l2:#2aabed;--l3:#a1bbc8;--l4:#692703;--l5:#627b62;--l6:#053671;--l7:#cfc49d;--l8:#90853f;--l9:#4d728a;
--m0:#e8f1f7;--m1:#c4dcec;--m2:#93c0dd;--m3:#5d9fca;--m4:#2a76a8;--m5:#0b4a72;
--v0:#1d2328;--v1:#1d2328;--v2:#1d2328;--v3:#1d2328;--v4:#ffffff;--v5:#ffffff}
@media (prefers-color-scheme:dark){:root{--paper:#14181b;--ink:#e8e6e1;--soft:#9aa4ac;--rule:#343b41;
--card:#1b2024;--accent:#6db8e3;--warn:#f0986b;--board:#262c31;
--c0:#4caefc;--c1:#af7d2a;--c2:#a3d59d;--c3:#a7698c;--c4:#ffef76;--c5:#c3ebff;
--l0:#535a59;--l1:#eabd4a;--l2:#1ba3ed;--l3:#ceece7;--l4:#7f4209;--l5:#92a083;--l6:#534d91;--l7:#fff2b6;--l8:#ad9242;--l9:#8aa6c2;
--m0:#1f2e39;--m1:#25455a;--m2:#2c5f7d;--m3:#4488b0;--m4:#74b1d5;--m5:#b4daf1;
--v0:#e8e6e1;--v1:#e8e6e1;--v2:#e8e6e1;--v3:#0d1114;--v4:#0d1114;--v5:#0d1114}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:15px/1.5 "Avenir Next","Segoe UI",Inter,"Helvetica Neue",Arial,sans-serif}
main{max-width:1080px;margin:0 auto;padding:32px 24px 64px}
h1{font-size:34px;line-height:1.15;margin:0 0 4px;font-weight:650;letter-spacing:-.015em}
h2{font-size:24px;margin:56px 0 4px;padding-top:18px;border-top:2px solid var(--ink);font-weight:650;letter-spacing:-.01em}
h3{font-size:15px;margin:28px 0 8px;font-weight:650}
p{max-width:70ch;margin:8px 0}.sub{color:var(--soft);margin:0 0 20px}
a{color:var(--accent)}a:focus-visible,select:focus-visible,summary:focus-visible,.scroll:focus-visible,figure:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
.caution{border-left:4px solid var(--warn);padding:8px 16px;background:var(--card);margin:18px 0}
.caution p{margin:0;max-width:none}
.notice{border-left:4px solid var(--warn);padding:8px 16px;max-width:none}
.scroll{overflow-x:auto;background:var(--card);border:1px solid var(--rule);border-radius:6px}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums;font-size:13.5px}
th,td{padding:6px 10px;text-align:right;border-bottom:1px solid var(--rule);white-space:nowrap;vertical-align:baseline}
th:first-child,td:first-child{text-align:left}tr:last-child td,tr:last-child th{border-bottom:0}
thead th{color:var(--soft);font-weight:500;font-size:12px;vertical-align:bottom}tbody th{font-weight:550}
tr.variant th{font-weight:400;padding-left:26px;color:var(--soft)}
.bar{color:var(--soft);font-size:11.5px}.out,.drift{color:var(--warn);font-weight:650}
#overview+.scroll th,#overview+.scroll td{padding:6px 8px}#overview+.scroll .bar,#overview+.scroll .out,#overview+.scroll .drift{display:block;line-height:1.25;font-size:11px}
#overview+.scroll tbody th{white-space:normal;min-width:150px}
td.text,th.text{text-align:left}.layup td.text{white-space:normal}.layup td.text:last-child{min-width:170px}.look{border:2px solid var(--warn);border-radius:6px;padding:2px 18px 10px;margin:22px 0}.scroll+.sub{margin:8px 0;max-width:none;font-size:13px}.look.fine{border-color:var(--rule)}.look h2{margin:8px 0 0;padding:0;border:0;break-before:auto}.look h3{margin:12px 0 2px}.look ul{margin:2px 0;padding-left:20px}.look li{overflow-wrap:anywhere}
.failed{color:var(--warn);white-space:normal;text-align:left}
figure{margin:10px 0;background:var(--card);border:1px solid var(--rule);border-radius:6px;padding:14px}
svg{display:block;width:100%;height:auto;font:12px "Avenir Next","Segoe UI",Inter,"Helvetica Neue",Arial,sans-serif;overflow:hidden}
svg+svg{margin-top:10px}svg text{fill:var(--ink)}svg .note,svg .tick{fill:var(--soft);font-size:11px}
svg .head{font-weight:650;font-size:13px}svg .label{paint-order:stroke;stroke:var(--card);stroke-width:3px;stroke-linejoin:round}svg .label{font-size:11.5px}
.layer{stroke:var(--card);stroke-width:.35}.leader{fill:none;stroke:var(--soft);stroke-width:.7}
.axis{stroke:var(--soft);stroke-width:.7;stroke-dasharray:8 3 2 3}.grid{stroke:var(--rule);stroke-width:.7}.zero{stroke:var(--soft);stroke-width:.9}
.contact{stroke:var(--accent);stroke-width:1;stroke-dasharray:5 4}.cut{stroke:var(--soft);stroke-width:.8;stroke-dasharray:1.5 3}
.board{fill:var(--board)}.outline{fill:none;stroke:var(--ink);stroke-width:1.4}.foot{fill:none;stroke:var(--ink);stroke-width:1.4;stroke-dasharray:3 2.5}
.zone{opacity:.85}.band{fill:none!important}
.curve{fill:none;stroke-width:2;stroke-linejoin:round}
.C0{stroke:var(--c0)}.C1{stroke:var(--c1);stroke-dasharray:7 3}.C2{stroke:var(--c2);stroke-dasharray:2 3}
.C3{stroke:var(--c3);stroke-dasharray:10 3 2 3}.C4{stroke:var(--c4);stroke-dasharray:4 2}.C5{stroke:var(--c5);stroke-dasharray:12 4}
.air{stroke-width:1;opacity:.75}.held{stroke-width:2.8}.fill{fill-opacity:.13;stroke:none!important}
.fill.C0{fill:var(--c0)}.fill.C1{fill:var(--c1)}.fill.C2{fill:var(--c2)}.fill.C3{fill:var(--c3)}.fill.C4{fill:var(--c4)}.fill.C5{fill:var(--c5)}
.under-foot{fill:var(--board)}.peak{fill:var(--ink)}svg .big{font-size:17px;font-weight:650}
.M0{fill:var(--m0)}.V0{fill:var(--v0)!important}.M1{fill:var(--m1)}.V1{fill:var(--v1)!important}.M2{fill:var(--m2)}.V2{fill:var(--v2)!important}.M3{fill:var(--m3)}.V3{fill:var(--v3)!important}.M4{fill:var(--m4)}.V4{fill:var(--v4)!important}.M5{fill:var(--m5)}.V5{fill:var(--v5)!important}
.none{fill:none;stroke:var(--soft);stroke-width:.8;stroke-dasharray:3 3}svg .value{font-size:12px;font-weight:550}svg .Ve{fill:var(--soft)}
.L0{fill:var(--l0)}.L1{fill:var(--l1)}.L2{fill:var(--l2)}.L3{fill:var(--l3)}.L4{fill:var(--l4)}.L5{fill:var(--l5)}.L6{fill:var(--l6)}.L7{fill:var(--l7)}.L8{fill:var(--l8)}.L9{fill:var(--l9)}
.band.L0{stroke:var(--l0)}.band.L1{stroke:var(--l1)}.band.L2{stroke:var(--l2)}.band.L3{stroke:var(--l3)}.band.L4{stroke:var(--l4)}.band.L5{stroke:var(--l5)}.band.L6{stroke:var(--l6)}.band.L7{stroke:var(--l7)}.band.L8{stroke:var(--l8)}.band.L9{stroke:var(--l9)}
.up{fill:var(--c0)}.down{fill:var(--c1)}.stem{stroke:var(--soft);stroke-width:2}.hist{fill:var(--c1);fill-opacity:.35;stroke:var(--c1);stroke-width:.8}
.bears{fill:var(--c0);fill-opacity:.16}
.limit{stroke:var(--warn);stroke-width:2}.beyond{fill:var(--warn);fill-opacity:.12}.whisker{stroke:var(--soft);stroke-width:1.6}.whisker.now{stroke:var(--accent)}
.before{fill:var(--card);stroke:var(--ink);stroke-width:1.6}.after{fill:var(--accent)}.misfit{fill:var(--warn)}svg .alert{fill:var(--warn);font-weight:650}
.keys{list-style:none;display:flex;flex-wrap:wrap;gap:4px 18px;margin:8px 0 14px 54px;padding:0;font-size:12px;color:var(--soft)}
.key{display:inline-block;width:22px;height:9px;margin-right:6px;border-radius:2px}
.key.L0{background:var(--l0)}.key.L1{background:var(--l1)}.key.L2{background:var(--l2)}.key.L3{background:var(--l3)}.key.L4{background:var(--l4)}.key.L5{background:var(--l5)}.key.L6{background:var(--l6)}.key.L7{background:var(--l7)}.key.L8{background:var(--l8)}.key.L9{background:var(--l9)}
.cases{display:grid;grid-template-columns:repeat(auto-fill,minmax(215px,1fr));gap:10px 18px;margin:8px 0}.cases>div{background:var(--card);border:1px solid var(--rule);border-radius:6px;padding:8px 12px;break-inside:avoid}.cases p{margin:4px 0 0;font-size:12.5px;line-height:1.35}
.outline.side{stroke-width:3}.clamp{fill:var(--card);stroke:var(--ink);stroke-width:1}.hatch{stroke:var(--ink);stroke-width:.9}polygon.load{fill:var(--warn)}line.load,polyline.load{fill:none;stroke:var(--warn);stroke-width:2.2}.bar-across{stroke:var(--ink);stroke-width:4;stroke-linecap:round}.strip{fill:var(--card);stroke:var(--ink);stroke-width:1.2}
.key.M0{background:var(--m0)}.key.M1{background:var(--m1)}.key.M2{background:var(--m2)}.key.M3{background:var(--m3)}.key.M4{background:var(--m4)}.key.M5{background:var(--m5)}
.choose{display:flex;flex-wrap:wrap;gap:12px 20px;margin:10px 0}.choose label{font-size:12px;color:var(--soft)}
select{display:block;font:inherit;font-size:14px;color:var(--ink);background:var(--card);border:1px solid var(--rule);border-radius:5px;padding:6px 8px;max-width:330px}
#compare~.scroll{max-height:420px;overflow:auto}svg+details,svg+details+details{margin:2px 0 14px 54px}details+svg{margin-top:10px}
details{margin:10px 0}summary{cursor:pointer;color:var(--soft);font-size:13px}
dl{display:grid;grid-template-columns:max-content 1fr;gap:2px 18px;font-size:13px;margin:8px 0}dt{color:var(--soft)}dd{margin:0}
.skip{position:absolute;left:-999px}.skip:focus{left:8px;top:8px;background:var(--card);padding:6px 10px}
.scroll tbody th{position:sticky;left:0;background:var(--card)}
@media (max-width:700px){main{padding:20px 12px}.cases{grid-template-columns:1fr 1fr;gap:8px}h1{font-size:26px}figure{overflow-x:auto;padding:10px}figure svg{width:760px}tbody th{white-space:normal;min-width:120px}}
@media print{:root{--paper:#fff;--ink:#000;--soft:#444;--rule:#bbb;--card:#fff}body{font-size:10pt}main{max-width:none;padding:0}
.choose,.skip{display:none}h2{break-before:page}h2#overview{break-before:auto}figure{border:0;padding:0}svg,tr,.caution{break-inside:avoid}h3{break-after:avoid}details:not([open]){display:none}.scroll,#compare~.scroll{overflow:visible;max-height:none}.many{display:none}.cases{grid-template-columns:repeat(4,1fr);gap:6px;break-before:avoid}.cases>div{padding:4px 6px}.cases p{font-size:7pt}table{font-size:8pt}th,td{padding:3px 5px;white-space:normal}#overview+.scroll table{font-size:6.5pt}#overview+.scroll th,#overview+.scroll td{padding:2px 3px}}
)css";

// Draws two rows' curves over each other, and the second against the first in a table.
const char* const report_script = R"js(
(function(){'use strict';
var D=JSON.parse(document.getElementById('data').textContent),N='http://www.w3.org/2000/svg';
var a=document.getElementById('first'),b=document.getElementById('second'),q=document.getElementById('what');
function reach(){[].forEach.call(document.querySelectorAll('figure'),function(f){
 if(f.scrollWidth>f.clientWidth+1)f.tabIndex=0;else f.removeAttribute('tabindex');});}
window.addEventListener('resize',reach);reach();
var shut=[];window.addEventListener('beforeprint',function(){
 shut=[].filter.call(document.querySelectorAll('details'),function(d){return !d.open;});shut.forEach(function(d){d.open=true;});});
window.addEventListener('afterprint',function(){shut.forEach(function(d){d.open=false;});shut=[];});
if(!a)return;
function el(n,at,text){var e=document.createElementNS(N,n);for(var k in at)e.setAttribute(k,at[k]);if(text!==undefined)e.textContent=text;return e;}
function step(r,n){var w=r/n,p=Math.pow(10,Math.floor(Math.log10(w)));return (w<=p?1:w<=2*p?2:w<=5*p?5:10)*p;}
function line(r,c){return r.section[c]?[r.section.x_mm,r.section[c]]:r.curves[c]?[r.curves.x_mm,r.curves[c]]:r.edge[c]?[r.edge_x,r.edge[c]]:[[],[]];}
function words(c){return c.indexOf('edge ')===0?c:c.replace(/_Nm2$/,', N m2').replace(/_mm$/,', mm').replace(/_deg$/,', deg').replace(/_kgpm$/,', kg/m').replace(/_/g,' ');}
D.forEach(function(r,i){[a,b].forEach(function(s){var o=document.createElement('option');o.value=i;o.textContent=r.name;s.appendChild(o);});});
b.value=String(Math.min(1,D.length-1));
var seen={};D.forEach(function(r){Object.keys(r.curves).concat(Object.keys(r.edge)).forEach(function(c){if(c!=='x_mm'&&!seen[c]){seen[c]=1;var o=document.createElement('option');o.value=c;o.textContent=words(c);q.appendChild(o);}});});
if(seen.GJ_Nm2)q.value='GJ_Nm2';
function draw(){
 var f=document.getElementById('overlay'),rows=[D[a.value],D[b.value]],c=q.value,L=54,R=986,T=26,B=266;
 var s=el('svg',{viewBox:'0 0 1000 290',role:'img','aria-label':words(c)+': '+rows[0].name+' and '+rows[1].name});
 var x0=1e99,x1=-1e99,y0=c.indexOf('edge angle')===0?1e99:0,y1=-1e99;
 rows.forEach(function(r){var l=line(r,c);l[1].forEach(function(v,i){if(v===null)return;var x=l[0][i];x0=Math.min(x0,x);x1=Math.max(x1,x);y0=Math.min(y0,v);y1=Math.max(y1,v);});});
 if(y1>y0&&x1>x0){y1+=(y1-y0)*.04;
 var X=function(x){return L+(x-x0)/(x1-x0)*(R-L);},Y=function(y){return B-(y-y0)/(y1-y0)*(B-T);};
 var h=step(y1-y0,6),v,d=Math.max(0,Math.ceil(-Math.log10(h)-1e-9));
 for(v=Math.ceil(y0/h-1e-9)*h;v<=y1;v+=h){s.appendChild(el('line',{x1:L,x2:R,y1:Y(v),y2:Y(v),'class':Math.abs(v)<h/2?'zero':'grid'}));s.appendChild(el('text',{x:L-6,y:Y(v)+4,'text-anchor':'end','class':'tick'},v.toFixed(d)));}
 h=step(x1-x0,9);for(v=Math.ceil(x0/h)*h;v<=x1;v+=h)s.appendChild(el('text',{x:X(v),y:B+17,'text-anchor':'middle','class':'tick'},v.toFixed(0)));
 rows.forEach(function(r,k){var p=[],l=line(r,c);l[1].forEach(function(y,i){if(y!==null)p.push(X(l[0][i]).toFixed(1)+','+Y(y).toFixed(1));});
 s.appendChild(el('polyline',{points:p.join(' '),'class':'curve C'+k}));});}
 s.appendChild(el('text',{x:L,y:14,'class':'head'},words(c)));
 var at=R;[1,0].forEach(function(k){s.appendChild(el('text',{x:at,y:14,'text-anchor':'end','class':'label'},rows[k].name));at-=6.4*rows[k].name.length+8;s.appendChild(el('line',{x1:at-24,x2:at,y1:10,y2:10,'class':'curve C'+k}));at-=40;});
 f.textContent='';f.appendChild(s);
 var t=document.getElementById('against');t.textContent='';
 Object.keys(rows[0].numbers).forEach(function(n){var u=rows[0].numbers[n],w=rows[1].numbers[n];if(!w)return;
 var r=t.insertRow(),e=document.createElement('th');if(n.indexOf('edge ')===0)r.className='many';e.scope='row';e.textContent=n;r.appendChild(e);
 [u[3],w[3],u[0]?((w[0]-u[0])/Math.abs(u[0])*100).toFixed(2)+' %':'',Math.abs(w[0]-u[0])>u[1]+w[1]?'':'within the bars',u[2]].forEach(function(z){r.insertCell().textContent=z;});});
}
[a,b,q].forEach(function(s){s.addEventListener('change',draw);});draw();
})();
)js";

} // namespace vrid

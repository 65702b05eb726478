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

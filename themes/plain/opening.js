// The opening view: chooses among frames that are drawn already. Without it, the still stands there.
(function (figure) {
  "use strict";
  // what stands after this script in the figure is not there yet
  if (document.readyState === "loading") { document.addEventListener("DOMContentLoaded", begin); } else { begin(); }

  function begin() {
    var told = JSON.parse(figure.querySelector('script[type="application/json"]').textContent);
    var group = figure.querySelector("svg > g");
    var caption = figure.querySelector("figcaption");
    var slider = figure.querySelector("input");
    var buttons = Array.from(figure.querySelectorAll("button"));
    var calm = window.matchMedia("(prefers-reduced-motion: reduce)");
    var NEAR = 2, PACE = 55;
    var now = Number(slider.value), moving = 0;

    function path(d, colour) {
      var made = document.createElementNS("http://www.w3.org/2000/svg", "path");
      made.setAttribute("d", d);
      if (colour) { made.setAttribute("fill", colour); made.setAttribute("stroke", colour); }
      else { made.setAttribute("class", "edge"); }
      return made;
    }
    // each patch is made once for a frame that shows it; frames that were shown are kept
    var kept = told.frames.map(function () { return null; });
    function frame(number) {
      if (!kept[number]) {
        kept[number] = [];
        told.frames[number].forEach(function (one) {
          var patch = told.patches[one];
          kept[number].push(path(patch[1], told.colours[patch[0]]));
          if (patch[2]) { kept[number].push(path(patch[2], "")); }
        });
      }
      return kept[number];
    }
    function words(number) {
      for (var i = 0; i < told.stops.length; i += 1) {
        if (told.stops[i][0] === number) { return [told.stops[i][1], told.stops[i][2]]; }
        if (told.stops[i][0] > number) {
          var between = "Between " + told.stops[i - 1][1].toLowerCase() + " and " + told.stops[i][1].toLowerCase();
          return [between, between.replace(/&/g, "&amp;").replace(/</g, "&lt;")];
        }
      }
      return ["", ""];
    }
    function show(number) {
      now = Math.max(0, Math.min(told.frames.length - 1, number));
      group.replaceChildren.apply(group, frame(now));
      slider.value = String(now);
      var said = words(now);
      slider.setAttribute("aria-valuetext", said[0]);
      caption.innerHTML = said[1];
      buttons.forEach(function (button) { button.setAttribute("aria-pressed", String(Number(button.value) === now)); });
    }
    function halt() { window.clearInterval(moving); moving = 0; }
    function go(to) {
      halt();
      if (calm.matches) { show(to); return; }
      moving = window.setInterval(function () {
        if (now === to) { halt(); return; }
        show(now + (to > now ? 1 : -1));
      }, PACE);
    }
    function stops() { return told.stops.map(function (stop) { return stop[0]; }); }

    slider.addEventListener("input", function () { halt(); show(Number(slider.value)); });
    // let go near a pose, the card comes to rest in it; arrow keys go frame by frame and are left alone
    slider.addEventListener("pointerup", function () {
      var near = stops().filter(function (stop) { return Math.abs(stop - now) <= NEAR; })[0];
      if (near !== undefined) { window.setTimeout(function () { show(near); }, 0); }
    });
    slider.addEventListener("keydown", function (event) {
      var to;
      if (event.key === "PageUp") { to = stops().filter(function (stop) { return stop > now; })[0]; }
      else if (event.key === "PageDown") { to = stops().filter(function (stop) { return stop < now; }).pop(); }
      else if (event.key === "Home") { to = 0; }
      else if (event.key === "End") { to = told.frames.length - 1; }
      else { return; }
      event.preventDefault();
      if (to !== undefined) { go(to); }
    });
    buttons.forEach(function (button) { button.addEventListener("click", function () { go(Number(button.value)); }); });
    figure.querySelector(".moves").hidden = false;
    show(now);
  }
}(document.currentScript.parentElement));

// The bench: shows what the program tells, keeps the place, and leads from a note to its line and its spot.
(function () {
  "use strict";
  var KINDS = ["page", "handout", "shots", "cues", "recipe"];
  var STAGES = { findings: "Reading the recipe", page: "Drawing the page", sheets: "Setting the sheets" };
  var now = null, shown = {}, up = "page";

  function at(id) { return document.getElementById(id); }
  function make(tag, words, kind) {
    var made = document.createElement(tag);
    if (words) { made.textContent = words; }
    if (kind) { made.className = kind; }
    return made;
  }
  function differs(what, value) {
    var text = JSON.stringify(value), same = shown[what] === text;
    shown[what] = text;
    return !same;
  }

  // Which sheet lies on top
  function lay(kind) {
    up = kind;
    KINDS.forEach(function (one) {
      at(one).classList.toggle("up", one === kind);
      at(one).inert = one !== kind;
    });
    document.querySelectorAll("nav button").forEach(function (button) {
      button.setAttribute("aria-pressed", String(button.value === kind));
    });
  }
  document.querySelectorAll("nav button").forEach(function (button) {
    button.addEventListener("click", function () { lay(button.value); });
  });

  // The page: the new one is loaded out of sight and takes the old one's place, at the old one's place in the text
  function frame() { return document.querySelector("#page iframe:not(.next)"); }
  function placeOf(view) {
    var steps = Array.from(view.contentDocument.querySelectorAll("[id]"));
    var above = steps.filter(function (step) { return step.getBoundingClientRect().top <= 1; }).pop();
    return { y: view.contentWindow.scrollY, id: above ? above.id : "", off: above ? above.getBoundingClientRect().top : 0 };
  }
  function goBack(view, place) {
    var step = place.id && view.contentDocument.getElementById(place.id);
    var y = step ? step.getBoundingClientRect().top + view.contentWindow.scrollY - place.off : place.y;
    view.contentWindow.scrollTo({ top: y, behavior: "instant" });
  }
  function turnTo(file) {
    document.querySelectorAll("#page iframe.next").forEach(function (one) { one.remove(); });
    var next = make("iframe", "", "next");
    next.title = "The page as it will be";
    next.addEventListener("load", function () {
      if (!next.contentDocument || !next.contentDocument.body.childElementCount) { return; }
      var old = frame();
      if (old && old.contentDocument) {
        var view = old.contentDocument.querySelector(".opening input");
        var other = next.contentDocument.querySelector(".opening input");
        if (view && other && view.max === other.max) {
          other.value = view.value;
          other.dispatchEvent(new Event("input"));
        }
        goBack(next, placeOf(old));
      }
      next.contentDocument.addEventListener("click", leaveLinks);
      next.classList.remove("next");
      if (old) { old.remove(); }
      document.querySelectorAll("#page .empty").forEach(function (one) { one.remove(); });
    });
    next.src = "/made/" + file;
    at("page").append(next);
  }
  function leaveLinks(event) {
    var link = event.target.closest("a[href]");
    if (link && !link.getAttribute("href").startsWith("#")) {
      event.preventDefault();
      window.open(link.href, "_blank", "noopener");
    }
  }

  // Sheets of paper: a picture is changed only where its sheet has changed
  function spread(kind, told) {
    var section = at(kind), old = Array.from(section.querySelectorAll("figure"));
    section.querySelectorAll(".empty, .print").forEach(function (one) { one.remove(); });
    var print = make("p", "", "print"), link = make("a", "Print it: " + told.pdf);
    link.href = "/made/" + told.pdf;
    link.target = "_blank";
    link.rel = "noopener";
    print.append(link);
    section.prepend(print);
    told.sheets.forEach(function (sheet, i) {
      var figure = old[i];
      if (!figure) {
        figure = make("figure");
        figure.append(make("img"), make("figcaption", "Sheet " + (i + 1)));
        section.append(figure);
      }
      var picture = figure.querySelector("img");
      picture.alt = "Sheet " + (i + 1) + ", as printed";
      picture.width = Math.round(sheet.width * 1.3);
      picture.height = Math.round(sheet.height * 1.3);
      if (picture.getAttribute("src") !== "/made/" + sheet.file) { picture.src = "/made/" + sheet.file; }
    });
    old.slice(told.sheets.length).forEach(function (figure) { figure.remove(); });
  }

  // The recipe's own text, with the lines that notes speak of
  function write(sources, notes) {
    var section = at("recipe"), y = section.scrollTop, found = {};
    notes.forEach(function (note) { if (note.place) { found[note.place.file + ":" + note.place.line] = note; } });
    section.replaceChildren.apply(section, Object.keys(sources).map(function (file) {
      var sheet = make("div");
      sheet.append(make("h2", file));
      sources[file].split("\n").forEach(function (text, i) {
        var line = make("div", "", "line"), key = file + ":" + (i + 1), code = make("code");
        line.dataset.at = key;
        line.tabIndex = -1;
        line.append(make("span", String(i + 1)), code);
        if (found[key]) {
          line.classList.add("found");
          code.append.apply(code, marked(found[key].place));
        } else { code.textContent = text; }
        sheet.append(line);
      });
      return sheet;
    }));
    section.scrollTop = y;
  }
  function marked(place) {
    return [place.text.slice(0, place.start), make("mark", place.text.slice(place.start, place.end)), place.text.slice(place.end)];
  }
  function toLine(place) {
    lay("recipe");
    document.querySelectorAll(".line.shown").forEach(function (line) { line.classList.remove("shown"); });
    var line = document.querySelector('.line[data-at="' + CSS.escape(place.file + ":" + place.line) + '"]');
    if (line) {
      line.classList.add("shown");
      line.scrollIntoView({ block: "center" });
      line.focus({ preventScroll: true });
    }
  }
  function spotIn(view, spot) {
    if (!view || !view.contentDocument) { return null; }
    return view.contentDocument.getElementById(spot) || view.contentDocument.querySelector("." + CSS.escape(spot));
  }
  function toSpot(spot) {
    lay("page");
    var view = frame(), there = spotIn(view, spot);
    if (!there) { return; }
    view.contentDocument.querySelectorAll("[data-pointed]").forEach(function (one) {
      one.style.outline = "";
      one.removeAttribute("data-pointed");
    });
    there.style.outline = "4px solid #c2410c";
    there.style.outlineOffset = "4px";
    there.setAttribute("data-pointed", "");
    there.tabIndex = -1;
    there.scrollIntoView({ block: "start", behavior: "instant" });
    there.focus({ preventScroll: true });
  }

  // The margin
  function note(one) {
    var item = make("li", "", "note " + one.severity), head = make("p"), ways = make("p", "", "ways");
    head.append(make("strong", one.severity.charAt(0).toUpperCase() + one.severity.slice(1)), ": " + one.name);
    item.append(head);
    if (one.place) {
      var quoted = make("pre"), code = make("code");
      code.append.apply(code, marked(one.place));
      quoted.append(code);
      item.append(quoted);
    }
    item.append(make("p", one.message));
    one.asides.forEach(function (aside) {
      item.append(make("p", "See " + aside.text + (aside.place ? ", line " + aside.place.line : ""), "aside"));
    });
    if (one.mend) { item.append(make("p", "To mend it: " + one.mend, "mend")); }
    if (one.place) {
      var line = make("button", "Line " + one.place.line);
      line.type = "button";
      line.addEventListener("click", function () { toLine(one.place); });
      ways.append(line);
    }
    if (one.spot) {
      var spot = make("button", "Show it on the page");
      spot.type = "button";
      spot.disabled = !(now && now.page);
      spot.addEventListener("click", function () { toSpot(one.spot); });
      ways.append(spot);
    }
    if (ways.childElementCount) { item.append(ways); }
    return item;
  }

  function empty(kind, words) {
    var section = at(kind), old = section.querySelector(".empty");
    if (section.querySelector("iframe, figure")) { return; }
    if (old) { old.textContent = words; } else { section.append(make("p", words, "empty")); }
  }

  function take(told) {
    now = told;
    document.title = told.title + ", on the bench";
    at("title").textContent = told.title;
    at("state").textContent = told.trouble ? "Not finished" : told.working ? STAGES[told.working] + " …" :
      told.sound ? "As saved, laid out at " + told.laid : "Mistakes in the recipe";
    at("count").textContent = told.count + (told.working && told.sound ? " So far." : "");
    var stale = told.sound === false && told.laid;
    var words = told.trouble ? "These sheets could not be made: " + told.trouble :
      stale ? "The recipe has mistakes, told in the notes. What lies here is from " + told.laid + ", before them." : "";
    if (at("notice").textContent !== words) { at("notice").textContent = words; }
    at("notice").hidden = !words;
    if (differs("notes", [told.notes, Boolean(told.page)])) {
      var aside = document.querySelector("aside"), y = aside.scrollTop;
      at("notes").replaceChildren.apply(at("notes"), told.notes.map(note));
      aside.scrollTop = y;
    }
    if (differs("sources", [told.sources, told.notes])) { write(told.sources, told.notes); }
    if (told.page && differs("page", told.page)) { turnTo(told.page); }
    Object.keys(told.sheets).forEach(function (kind) {
      if (differs(kind, told.sheets[kind])) { spread(kind, told.sheets[kind]); }
    });
    KINDS.slice(0, 4).forEach(function (kind) {
      empty(kind, told.sound === false ? "Nothing to lay out yet: the recipe has mistakes, told in the notes." :
        "It is being made …");
    });
  }

  if (window.matchMedia("(max-width: 46rem)").matches) { document.querySelector("details").open = false; }
  lay(up);
  var line = new EventSource("/told");
  line.addEventListener("message", function (event) { take(JSON.parse(event.data)); });
  line.addEventListener("error", function () {
    at("state").textContent = "The bench is cleared: start foldproof watch again";
  });
}());

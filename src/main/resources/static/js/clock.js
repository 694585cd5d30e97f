// Lets the wet clocks of the wash run between two looks. The page without it shows the time of its making, and a link.
"use strict";

(() => {
  const begun = performance.now();
  const clocks = [...document.querySelectorAll(".clock")];

  function show(clock) {
    const ran = Number(clock.dataset.ran) + Math.floor((performance.now() - begun) / 1000);
    const least = Number(clock.dataset.least);
    const figures = [Math.floor(ran / 60), ran % 60, Math.floor(least / 60), least % 60];
    clock.firstElementChild.textContent = clock.dataset.words.replace(/\{(\d)\}/g, (whole, place) => figures[place]);
  }

  setInterval(() => clocks.forEach(show), 1000);
})();

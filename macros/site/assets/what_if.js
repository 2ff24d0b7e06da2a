// What if: moves inputs of a plant within a grid of figures that was computed at build. A figure lies on a cubic through
// the four nearest points of each axis, and is written by the rules by which every number of the handbook is.
(() => {
  "use strict";

  const NO_BREAK = "\u00a0", GROUP = "\u202f", MINUS = "\u2212", TRUE_DIGITS = 12;

  let mark = "."; // between the whole and its decimals, as the page writes it

  // How much each of the nearest points of an axis counts.
  function weights({ points }, at) {
    if (!(points[0] <= at && at <= points[points.length - 1])) return [];
    const places = points.map(Math.log);
    const x = Math.log(at);
    const count = Math.min(4, places.length);
    const behind = points.filter((point) => point <= at).length;
    const first = Math.min(Math.max(behind - 2, 0), places.length - count);
    const held = Array.from({ length: count }, (_, index) => first + index);
    return held.map((one) => [one, held.reduce(
      (product, other) => (other === one ? product : product * (x - places[other]) / (places[one] - places[other])), 1,
    )]);
  }

  function value(figure, axes, at) {
    let corners = [[0, 1]];
    for (const number of figure.by) {
      const held = weights(axes[number], at[number]);
      const size = axes[number].points.length;
      corners = corners.flatMap(([place, weight]) => held.map(([one, more]) => [place * size + one, weight * more]));
    }
    if (!corners.length || corners.some(([place]) => figure.values[place] === null)) return null;
    return corners.reduce((sum, [place, weight]) => sum + figure.values[place] * weight, 0);
  }

  // Digits beyond those that a float carries are noise and no part of the value.
  const clean = (number) => Number(number.toPrecision(TRUE_DIGITS));
  const exponent = (number) => Number(number.toExponential(TRUE_DIGITS - 1).split("e")[1]);
  const placeOf = (number, digits) => (number ? exponent(number) - digits + 1 : 0);

  function rounded(number, place, how) {
    const scaled = clean(place > 0 ? number / 10 ** place : number * 10 ** -place);
    if (how === "up") return Math.ceil(scaled);
    if (how === "down") return Math.floor(scaled);
    const below = Math.floor(scaled);
    if (scaled - below !== 0.5) return Math.round(scaled);
    return below % 2 ? below + 1 : below;
  }

  function written(steps, place) {
    const size = Math.abs(steps);
    const text = place < 0 ? (size / 10 ** -place).toFixed(-place) : String(size * 10 ** place);
    const [whole, rest] = text.split(".");
    const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, GROUP) : whole;
    return `${steps < 0 ? MINUS : ""}${grouped}${rest ? `${mark}${rest}` : ""}`;
  }

  function show(si, figure, system) {
    const [, ownFactor, ownOffset] = figure.own;
    const own = clean((si - figure.base) / ownFactor - ownOffset);
    const relative = (own + ownOffset) * ownFactor;
    const units = figure.units[system];
    const target = [...units].reverse().find(([, factor, offset]) => Math.abs(relative / factor - offset) >= 1) || units[0];
    const [symbol, factor, offset] = target;
    let decimals = figure.decimals;
    if (decimals === null && offset !== ownOffset) decimals = -placeOf(own, figure.digits);
    if (decimals !== null) decimals -= Math.round(Math.log10(ownFactor / factor));
    const number = clean((si - figure.base) / factor - offset);
    let place = decimals === null ? placeOf(number, figure.digits) : -decimals;
    if (figure.spread) {
      const first = Math.floor(Math.log10(figure.spread / factor) + 1e-9);
      place = Math.max(place, Math.min(first, placeOf(number, 1)));
    }
    let steps = rounded(number, place, figure.rounding);
    // 9.996 to three digits is 10.0, not 10.00.
    if (decimals === null && place === placeOf(number, figure.digits) && steps
        && exponent(steps) + place > exponent(number)) {
      place += 1;
      steps = rounded(steps / 10, 0, figure.rounding);
    }
    // Beyond plain digits `show` writes powers of ten; no figure that is explored comes near them.
    if (steps && (exponent(steps) + place < -5 || exponent(steps) + place > 8)) return null;
    return symbol ? `${written(steps, place)}${NO_BREAK}${symbol}` : written(steps, place);
  }

  function begin(section) {
    const { axes, figures } = JSON.parse(section.dataset.whatIf);
    mark = section.dataset.mark;
    const inputs = [...section.querySelectorAll("input[type=range]")];
    const outputs = [...section.querySelectorAll("output")];
    const cells = [...section.querySelectorAll(".gw-what-if-here")];
    const systems = ["workshop", "si", "us"];
    const system = () => document.documentElement.dataset.units || systems[0];
    const described = cells.map((cell) => ({ ...cell.dataset, workshop: cell.dataset.workshop }));

    function put(element, texts) {
      systems.forEach((one) => { element.dataset[one] = texts[one]; });
      element.textContent = texts[system()];
    }

    function update() {
      const chosen = inputs.map((input) => Number(input.value));
      const at = chosen.map((step, number) => axes[number].steps[step]);
      const moved = chosen.map((step, number) => step !== axes[number].own);
      chosen.forEach((step, number) => {
        put(outputs[number], Object.fromEntries(systems.map((one) => [one, axes[number].said[one][step]])));
        inputs[number].setAttribute("aria-valuetext", outputs[number].textContent);
      });
      figures.forEach((figure, row) => {
        const still = !figure.by.some((number) => moved[number]);
        const si = still ? null : value(figure, axes, at);
        const texts = still ? described[row] : Object.fromEntries(systems.map(
          (one) => [one, (si === null ? null : show(si, figure, one)) ?? section.dataset.none],
        ));
        put(cells[row], texts);
        cells[row].closest("tr").classList.toggle("gw-what-if-moved", !still);
      });
    }

    inputs.forEach((input) => input.addEventListener("input", update));
    section.querySelector(".gw-what-if-back").addEventListener("click", () => {
      inputs.forEach((input, number) => { input.value = axes[number].own; });
      update();
    });
    document.addEventListener("gw-units", update);
    update();
  }

  document.querySelectorAll(".gw-what-if").forEach(begin);
})();

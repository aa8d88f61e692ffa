// What the theme leaves to the mouse or without a name, for who works with the keyboard or hears the page.
// Every name is one that the theme has already put on the page.
(() => {
  const named = (selector) => document.querySelector(selector)?.getAttribute("aria-label") ?? "";
  const menu = document.getElementById("__drawer");
  const sign = document.querySelector(".md-header__button[for='__drawer']");
  const search = document.querySelector(".md-search");

  if (search) search.setAttribute("aria-label", named(".md-search__input"));

  // the theme clicks a label that has the focus when Enter is pressed; these could not have it
  for (const label of document.querySelectorAll(".md-nav label:not([for='__drawer'])")) label.tabIndex = 0;

  if (menu && sign) {
    const button = document.createElement("button");
    const tell = () => button.setAttribute("aria-expanded", String(menu.checked));
    button.type = "button";
    button.setAttribute("aria-label", named(".md-nav--primary"));
    button.append(...sign.childNodes);
    sign.append(button);
    button.addEventListener("click", () => menu.click());
    menu.addEventListener("change", tell);
    document.addEventListener("keydown", (event) => {
      if (event.key === "Escape" && menu.checked) menu.click();
    });
    tell();
  }
})();

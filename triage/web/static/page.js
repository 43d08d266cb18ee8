// Three comforts; every page works without them.
"use strict";

// A file dropped anywhere on a form goes into its file field.
for (const form of document.querySelectorAll("form[data-drop]")) {
  const field = form.querySelector("input[type=file]");
  form.addEventListener("dragover", (event) => {
    if (event.dataTransfer.types.includes("Files")) { event.preventDefault(); form.classList.add("over"); }
  });
  form.addEventListener("dragleave", () => form.classList.remove("over"));
  form.addEventListener("drop", (event) => {
    form.classList.remove("over");
    if (event.dataTransfer.files.length === 0) { return; }
    event.preventDefault();
    field.files = event.dataTransfer.files;
    field.focus();
  });
}

// Control and Enter in a text area send its form.
for (const area of document.querySelectorAll("textarea")) {
  area.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) { area.form.requestSubmit(); }
  });
}

// The button that prints shows itself only where it can.
for (const button of document.querySelectorAll("[data-print]")) {
  button.hidden = false;
  button.addEventListener("click", () => window.print());
}

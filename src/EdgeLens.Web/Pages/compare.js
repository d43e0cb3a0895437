// Lays the two photographs over each other; the range moves the border between them. Without this script they stand one below the other.
"use strict";
const laid = document.querySelector(".overlay"), range = document.getElementById("reveal");
const show = () => laid.style.setProperty("--reveal", range.value + "%");
range.addEventListener("input", show);
show();
laid.classList.add("laid");
range.parentElement.hidden = false;

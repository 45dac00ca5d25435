(() => {
  const place = document.querySelector("#measurements .copy");
  const table = document.querySelector("#measurements table");
  if (!place || !table || !navigator.clipboard) return;
  const words = (cell) => cell.innerText.trim().replace(/\s*\n\s*/g, "; ").replace(/\s+/g, " ");
  const lines = () => [...table.rows].map((row) => [...row.cells].map(words).join("\t")).join("\n");
  place.hidden = false;
  place.querySelector("button").addEventListener("click", async () => {
    const told = place.querySelector("[role=status]");
    try {
      await navigator.clipboard.writeText(lines());
      told.textContent = "Copied: paste it into a note or a table.";
    } catch {
      told.textContent = "The browser does not let it be copied; mark the table and copy it by hand.";
    }
  });
})();

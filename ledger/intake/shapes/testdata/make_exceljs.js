// Writes cells.json as a workbook with exceljs: rich text, formulas with their
// values, links, dates by the day in UTC, a hidden column and hidden rows.
const fs = require("fs");
const ExcelJS = require("exceljs");

const tables = JSON.parse(fs.readFileSync(process.argv[2], "utf8"));
const numbers = ["money", "signed money", "number", "signed number", "whole", "percent", "length", "amount", "coverage", "day hours", "hours"];
const book = new ExcelJS.Workbook();
book.created = book.modified = new Date(Date.UTC(2026, 2, 1));
for (const table of tables) {
  const sheet = book.addWorksheet(table.name, { views: [{ state: "frozen", ySplit: 1 }] });
  sheet.addRow(table.columns.map((c) => c.replace(/_/g, " "))).font = { bold: true };
  table.rows.forEach((row, y) => {
    row.forEach((text, x) => {
      const kind = table.kinds[x];
      if (text === "") return;
      const cell = sheet.getCell(y + 2, x + 1);
      if (kind === "date") {
        cell.value = new Date(text + "T00:00:00Z");
        cell.numFmt = "dd/mm/yyyy";
      } else if (numbers.includes(kind) && /^-?\d+(\.\d+)?$/.test(text)) {
        cell.value = y % 2 ? { formula: text + "+0", result: Number(text) } : Number(text);
      } else if (y % 3 === 0 && text.length > 3) {
        cell.value = { richText: [{ text: text.slice(0, 2) }, { font: { italic: true }, text: text.slice(2) }] };
      } else if (y % 3 === 1 && kind === "text") {
        cell.value = { text, hyperlink: "https://example.com/" };
      } else {
        cell.value = text;
      }
    });
    sheet.getRow(y + 2).hidden = y % 20 === 7;
  });
  sheet.getColumn(table.columns.length).hidden = true;
}
book.xlsx.writeFile(process.argv[3]);

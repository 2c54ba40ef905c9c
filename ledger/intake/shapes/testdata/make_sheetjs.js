// Writes cells.json as a workbook with SheetJS: shared texts, dates as serial
// numbers in a date format, days counted from 1904, the table from C5 on.
const fs = require("fs");
const XLSX = require("xlsx");

const tables = JSON.parse(fs.readFileSync(process.argv[2], "utf8"));
const numbers = ["money", "signed money", "number", "signed number", "whole", "percent", "length", "amount", "coverage", "day hours", "hours"];
const book = XLSX.utils.book_new();
book.Workbook = { WBProps: { date1904: true } };
book.Props = { CreatedDate: new Date(Date.UTC(2026, 2, 1)) };
for (const table of tables) {
  const sheet = {};
  const put = (y, x, cell) => { sheet[XLSX.utils.encode_cell({ r: y + 4, c: x + 2 })] = cell; };
  table.columns.forEach((c, x) => put(0, x, { t: "s", v: c.toUpperCase() }));
  table.rows.forEach((row, y) => row.forEach((text, x) => {
    const kind = table.kinds[x];
    if (text === "") return;
    if (kind === "date") put(y + 1, x, { t: "n", v: (Date.parse(text + "T00:00:00Z") - Date.UTC(1904, 0, 1)) / 86400000, z: "m/d/yy" });
    else if (numbers.includes(kind) && /^-?\d+(\.\d+)?$/.test(text)) put(y + 1, x, { t: "n", v: Number(text) });
    else put(y + 1, x, { t: "s", v: text });
  }));
  sheet["!ref"] = XLSX.utils.encode_range({ s: { r: 0, c: 0 }, e: { r: table.rows.length + 40, c: table.columns.length + 20 } });
  XLSX.utils.book_append_sheet(book, sheet, table.name);
}
XLSX.writeFile(book, process.argv[3], { bookSST: true, compression: true });

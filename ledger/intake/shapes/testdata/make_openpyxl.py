# Writes cells.json as a workbook with openpyxl: dates as dates, numbers as
# numbers, a title, styled and filtered headers. With `formulas` as the third
# word every number is a formula, which openpyxl saves without its value.
import datetime
import json
import re
import sys

import openpyxl
from openpyxl.styles import Font

tables = json.load(open(sys.argv[1], encoding="utf-8"))
formulas = len(sys.argv) > 3
numbers = {"money", "signed money", "number", "signed number", "whole", "percent", "length", "amount", "coverage", "day hours", "hours"}
book = openpyxl.Workbook()
book.remove(book.active)
for table in tables:
    sheet = book.create_sheet(table["name"])
    sheet["B1"] = "The Sticky Drawer"
    sheet["B1"].font = Font(bold=True, size=16)
    sheet.merge_cells("B1:D1")
    for x, column in enumerate(table["columns"]):
        head = sheet.cell(3, x + 2, column.replace("_", " ").capitalize())
        head.font = Font(bold=True)
    for y, row in enumerate(table["rows"]):
        for x, text in enumerate(row):
            kind = table["kinds"][x]
            if text == "":
                continue
            cell = sheet.cell(y + 4, x + 2)
            if kind == "date":
                cell.value = datetime.datetime.strptime(text, "%Y-%m-%d")
                cell.number_format = "d mmm yyyy"
            elif kind in numbers and re.fullmatch(r"-?\d+(\.\d+)?", text):
                cell.value = "=" + text + "+0" if formulas else float(text) if "." in text else int(text)
                cell.number_format = "#,##0.00" if kind == "money" else "General"
            else:
                cell.value = text
                cell.data_type = "s"
    sheet.freeze_panes = "A4"
    sheet.auto_filter.ref = "B3:%s%d" % (openpyxl.utils.get_column_letter(len(table["columns"]) + 1), len(table["rows"]) + 3)
book.save(sys.argv[2])

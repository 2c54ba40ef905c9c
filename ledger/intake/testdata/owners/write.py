"""Writes the workbooks that standard input describes with openpyxl."""
import json
import sys

from openpyxl import Workbook
from openpyxl.styles import Font

for book in json.load(sys.stdin):
    w = Workbook()
    w.remove(w.active)
    for sheet in book["Sheets"]:
        s = w.create_sheet(sheet["name"])
        for row, column, value, crossed in sheet["cells"] or []:
            cell = s.cell(row, column)
            if isinstance(value, str):
                cell.value, cell.data_type = value, "s"
            else:
                cell.value = value
            if crossed:
                cell.font = Font(strike=True)
    w.save(book["File"])

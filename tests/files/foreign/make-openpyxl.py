"""Writes openpyxl.xlsx: what a small workshop might keep, with all that openpyxl can put into a file."""
from datetime import date, datetime
from openpyxl import Workbook
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.formatting.rule import CellIsRule, ColorScaleRule
from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill, Protection, Side
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table, TableStyleInfo

book = Workbook()
sheet = book.active
sheet.title = "Oils"
sheet.append(["Oil", "Price per kg", "Load", "Bought", "Share"])
sheet.append(["Rain", 46, 0.05, date(2026, 11, 25), "=B2/SUM(B$2:B2)"])
sheet.append(["Moss", 38.5, 0.075, datetime(2026, 11, 26, 9, 30), "=B3/SUM(B$2:B3)"])
sheet.append(["Salt & <smoke>", 52, 0.1, None, "=B4/SUM(B$2:B4)"])
sheet["G1"] = "Change this"
sheet["H1"] = 10
sheet["I1"] = "=H1*2"
sheet["G2"] = "=SUM(prices)"
sheet["G3"] = '=IF(H1>5,"much","little")'
sheet["G4"] = "007"
sheet["G5"] = True
sheet["G6"] = "=1/0"
sheet["G8"] = "merged"
sheet.merge_cells("G8:I9")
table = Table(displayName="Oils", ref="A1:E4")
table.tableStyleInfo = TableStyleInfo(name="TableStyleLight9", showRowStripes=True)
sheet.add_table(table)
strong = NamedStyle("Strong", font=Font(name="Georgia", bold=True, size=13, color="00AA3300"))
book.add_named_style(strong)
sheet["G1"].style = "Strong"
sheet["G2"].fill = PatternFill("lightGrid", fgColor="FFEECC", bgColor="336699")
sheet["G3"].border = Border(left=Side("double", "112233"), bottom=Side("hair"))
sheet["G4"].alignment = Alignment(textRotation=45, indent=1, wrap_text=True)
sheet["H1"].protection = Protection(locked=False)
for cell in sheet["C"][1:4]:
    cell.number_format = "0.0 %"
sheet["A3"].comment = Comment("ask again in spring", "Ana")
rule = DataValidation("list", formula1='"Rain,Moss"', allow_blank=True)
rule.prompt, rule.promptTitle = "one of two", "Oil"
sheet.add_data_validation(rule)
rule.add("G10:G20")
sheet.conditional_formatting.add("B2:B4", CellIsRule("greaterThan", ["45"], fill=PatternFill(bgColor="FFC7CE")))
sheet.conditional_formatting.add("C2:C1048576", ColorScaleRule(start_type="min", start_color="FFFFFF", end_type="max", end_color="88CC88"))
book.defined_names.append(DefinedName("prices", attr_text="Oils!$B$2:$B$4"))
chart = BarChart()
chart.title = "Prices"
chart.add_data(Reference(sheet, min_col=2, min_row=1, max_row=4), titles_from_data=True)
chart.set_categories(Reference(sheet, min_col=1, min_row=2, max_row=4))
sheet.add_chart(chart, "A12")
sheet.freeze_panes = "B2"
sheet.print_title_rows = "1:1"
sheet.print_area = "A1:I20"
sheet.page_setup.orientation = "landscape"
sheet.oddFooter.center.text = "Page &P"
sheet.column_dimensions["A"].width = 22
sheet.column_dimensions["J"].hidden = True
sheet.row_dimensions[3].height = 31
sheet["G11"].hyperlink = "https://rain.example/?a=1&b=2"
sheet["G11"] = "Rain"
sheet.sheet_properties.tabColor = "AA00CC"
other = book.create_sheet("My notes")
other["A1"] = "=Oils!H1+1"
other.sheet_state = "hidden"
book.save("openpyxl.xlsx")

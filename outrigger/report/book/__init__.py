"""The live workbook, formulas of a spreadsheet, and tables; decides where a number stands, no more.

May import `base` to `studies`, and `report`.
"""

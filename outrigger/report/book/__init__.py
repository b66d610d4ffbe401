"""The live workbook: the arithmetic of a design as formulas of a spreadsheet.

It decides where each number stands and prints; what follows from what is `studies/workbook`.
"""

"""The summary's document, and how it is written as PDF, HTML and Markdown.

May import `base` to `studies`, and `report`.
"""

"""Reads rows.csv with Python's csv module, strictly, and writes what it read as JSON.

Run it in this folder after rows.csv has changed: python3 read.py
The test compares the bytes that this program writes with rows.csv, and the fields that
went in with rows.json.
"""
import csv
import json

with open("rows.csv", encoding="utf-8", newline="") as file:
    rows = list(csv.reader(file, strict=True))
with open("rows.json", "w", encoding="utf-8") as file:
    json.dump(rows, file, ensure_ascii=True, indent=1)
    file.write("\n")

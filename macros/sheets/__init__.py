"""Sheets: tables, data files and printed sheets made from a plant."""

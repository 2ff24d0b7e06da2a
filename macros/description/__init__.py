"""Descriptions: a folder of YAML files, read with the line of every value and checked whole."""

"""The pages: one file each. Read the visit, call one task, fill one template.

No rule of the trade is here: words come from `wording`, pictures from `draw`.
"""

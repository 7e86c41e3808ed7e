"""What leaves the program: files that others read, look at and keep.

Everything is made from the job, and from it alone, so that the same job gives the same bytes.
Text that somebody said or wrote goes through :func:`~assistant.reply.visible.visible` first.
"""

"""The spoken conversation: what was heard becomes commands, and answers are said."""

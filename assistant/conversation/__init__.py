"""The conversation: one utterance in, one turn out, and the question that waits."""

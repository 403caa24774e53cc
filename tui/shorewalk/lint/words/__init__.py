"""What a tree says to people: its texts and sentences, and words that would send somebody into danger."""

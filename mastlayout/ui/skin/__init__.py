"""The skin unrolled round the height in hand."""

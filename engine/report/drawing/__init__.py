"""The picture of a tree: from the model to a chart, from the chart to SVG, Mermaid or DOT."""

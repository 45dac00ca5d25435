"""From a recipe's plan to the folded card: panels, hinges, joins, poses and who lies over whom."""

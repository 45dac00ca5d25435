"""What a class needs: kits, cutting plans, shopping, cost and time."""

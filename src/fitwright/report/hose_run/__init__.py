"""What a hose run's answer says: findings, tables, picture, files."""

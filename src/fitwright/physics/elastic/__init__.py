"""Linear elasticity of one body by finite elements of second order, in pieces; `physics.elasticity` joins them."""

"""Linear elasticity of one body by finite elements of second order, in small pieces; `physics.elasticity` joins them."""

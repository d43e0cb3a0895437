namespace EdgeLens.Imaging.Lines;

/// <summary>How an edge departs inwards from its straight line between its start and a place along it.</summary>
/// <param name="PlacePx">Where the straight line begins, pixels from the start; a first guess where it is free.</param>
/// <param name="IsRound">False: straight up to a bend there. True: on a circle that touches the line there (its parabola), as a rounded end or a bevel ground convex.</param>
/// <param name="PlaceIsFree">True: the place is fitted too.</param>
/// <param name="LeastTurn">Least slope at the start against the line; for a circle, the place over its greatest radius.</param>
internal readonly record struct EdgeForm(double PlacePx, bool IsRound, bool PlaceIsFree = false, double LeastTurn = 0);

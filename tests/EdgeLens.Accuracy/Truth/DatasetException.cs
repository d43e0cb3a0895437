namespace EdgeLens.Accuracy.Truth;

/// <summary>The folder is not there, or not in the form of a set of photographs with truth. The message names the file and what is wrong.</summary>
public sealed class DatasetException(string message, Exception? inner = null) : Exception(message, inner);

using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace EdgeLens.Tests.HouseRules;

/// <summary>What a compiled assembly really calls: more reliable than searching sources, where comments and strings look like code.</summary>
/// <param name="Name">Without extension.</param>
/// <param name="ReferencedAssemblies">Those of which something is used; the compiler leaves out the others.</param>
/// <param name="UsedTypes">Full names of types from other assemblies.</param>
/// <param name="UsedMembers">Methods, constructors and property accessors of types from other assemblies.</param>
internal sealed record CompiledAssembly(string Name, IReadOnlyList<string> ReferencedAssemblies, IReadOnlyList<string> UsedTypes, IReadOnlyList<UsedMember> UsedMembers)
{
    /// <summary>All shipped assemblies, as they lie beside the tests.</summary>
    public static IReadOnlyList<CompiledAssembly> Shipped { get; } =
    [
        .. Directory.EnumerateDirectories(Repository.PathOf("src")).Select(folder => Path.GetFileName(folder)!)
            .Order(StringComparer.Ordinal)
            .Select(project => Read(Path.Combine(AppContext.BaseDirectory, (project == "EdgeLens.Cli" ? "edgelens" : project) + ".dll"))),
    ];

    public static CompiledAssembly Read(string path)
    {
        using PEReader file = new(File.OpenRead(path));
        MetadataReader reader = file.GetMetadataReader();
        return new(
            Path.GetFileNameWithoutExtension(path),
            [.. reader.AssemblyReferences.Select(handle => reader.GetString(reader.GetAssemblyReference(handle).Name)).Order(StringComparer.Ordinal)],
            [.. reader.TypeReferences.Select(handle => FullName(reader, handle)).Order(StringComparer.Ordinal)],
            [.. reader.MemberReferences.Select(handle => Describe(reader, reader.GetMemberReference(handle))).OfType<UsedMember>()]);
    }

    private static UsedMember? Describe(MetadataReader reader, MemberReference member)
    {
        if (member.GetKind() != MemberReferenceKind.Method || member.Parent.Kind != HandleKind.TypeReference) return null;
        BlobReader signature = reader.GetBlobReader(member.Signature);
        if (signature.ReadSignatureHeader().IsGeneric) signature.ReadCompressedInteger();
        int parameters = signature.ReadCompressedInteger();
        return new(FullName(reader, (TypeReferenceHandle)member.Parent), reader.GetString(member.Name), parameters);
    }

    private static string FullName(MetadataReader reader, TypeReferenceHandle handle)
    {
        TypeReference type = reader.GetTypeReference(handle);
        string name = reader.GetString(type.Name);
        return type.Namespace.IsNil ? name : $"{reader.GetString(type.Namespace)}.{name}";
    }
}

/// <summary>A member that is called.</summary>
internal sealed record UsedMember(string Type, string Name, int ParameterCount);

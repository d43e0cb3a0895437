using System.CommandLine;
using EdgeLens.Cli.Rim;
using EdgeLens.Cli.Writing;
using EdgeLens.Web.People;

namespace EdgeLens.Cli.Books;

/// <summary><c>edgelens book staff</c>: who may sign in to the web app.</summary>
internal static class StaffCommand
{
    private static readonly (string Name, Role Role)[] Roles = [("nurse", Role.Nurse), ("lead-clinician", Role.LeadClinician), ("manager", Role.Manager)];

    public static Command Create(Terminal terminal, Option<bool> json, BookOptions options)
    {
        Argument<string> code = new("CODE") { Description = "Initials or staff code." };
        Option<string?> role = new("--role") { Description = "What they may do: nurse, lead-clinician or manager." };
        role.AcceptOnlyFromAmong([.. Roles.Select(r => r.Name)]);
        Option<bool> remove = new("--remove") { Description = "Take the account away; its sessions end at once." };
        Command command = new("staff", "Adds an account to the web app, or gives it another role and PIN. The PIN is read from standard input, where no other user of the machine sees it.") { code, role, remove };
        command.Does(parsed =>
        {
            options.Open(parsed, terminal);
            StaffFile staff = new(options.Folder(parsed));
            string name = parsed.GetRequiredValue(code);
            if (parsed.GetValue(remove))
            {
                if (!staff.Remove(name)) throw new RimException(ExitCode.WrongArguments, $"There is no account {name}.");
                return Told(terminal, parsed.GetValue(json), name, null);
            }
            string given = parsed.GetValue(role) ?? throw new RimException(ExitCode.WrongArguments, "Say what they may do: --role nurse, lead-clinician or manager.");
            terminal.Error.WriteLine($"PIN for {name} ({StaffFile.ShortestPin} characters or more):");
            try
            {
                StaffMember member = staff.Set(name, Roles.Single(r => r.Name == given).Role, Console.In.ReadLine()?.Trim() ?? "");
                return Told(terminal, parsed.GetValue(json), member.Code, given);
            }
            catch (ArgumentException e)
            {
                throw new RimException(ExitCode.WrongArguments, e.Message, e);
            }
        });
        return command;
    }

    private static int Told(Terminal terminal, bool json, string code, string? role)
    {
        terminal.Out.Write(json
            ? ConsoleJson.Write(j =>
            {
                j.WriteNumber("exitCode", 0);
                j.WriteString("staff", code);
                j.WriteString("role", role);
            })
            : role is null ? $"{code} is removed.\n" : $"{code} may sign in as {role}.\n");
        return (int)ExitCode.Done;
    }
}
